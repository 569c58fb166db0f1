import { useEffect } from 'react';
import { useCommand } from '../commands/useCommand.ts';
import { CuePicture } from '../cues/CuePicture.tsx';
import { SettingsSheet } from '../screens/bench/settings/SettingsSheet.tsx';
import { toggleSettings } from '../screens/bench/settings/open.ts';
import { useBenchSeen } from '../stores/bench.ts';
import { HelpSheet } from '../screens/help/HelpSheet.tsx';
import { toggleHelp } from '../screens/help/open.ts';
import { openBuild } from '../stores/notebook.ts';
import { buildOf, go, useRoute } from '../stores/route.ts';
import { switchUnits } from '../stores/session.ts';
import { BesideLine } from './BesideLine.tsx';
import { Guard } from './Guard.tsx';
import { Job } from './Job.tsx';
import { JobStopped } from './JobStopped.tsx';
import { ProblemLine } from './ProblemLine.tsx';
import { Screen } from './Screen.tsx';
import { ScreenStopped } from './ScreenStopped.tsx';
import { Strip } from './Strip.tsx';
import { useFirstFocus } from './useFirstFocus.ts';
import './app.css';

/** The bench: the job at one side, one stage, words beside it, the gauges along the bottom. */
export function App() {
  const route = useRoute(({ route }) => route);
  const presence = useBenchSeen((seen) => seen.presence);
  const build = buildOf(route);
  useEffect(() => {
    if (build !== undefined && presence === 'here') void openBuild(build);
  }, [build, presence]);
  useFirstFocus();
  useCommand('M', 'Just measure', () => go({ at: 'just-measure' }));
  useCommand('U', 'Switch between inch and metric', switchUnits);
  useCommand('G', 'Show the gauges', () => go({ at: 'gauges' }));
  useCommand('B', 'Put an axle on the stand', () => go({ at: 'builds' }));
  useCommand('L', 'Look through all builds', () => go({ at: 'shop' }));
  useCommand('D', 'Show the shims at hand', () => go({ at: 'drawer', ...(build === undefined ? {} : { build }) }));
  useCommand(',', 'Open the settings', toggleSettings);
  useCommand('F1', 'How it is taken, and cautions', toggleHelp);
  useCommand('?', 'How it is taken, and cautions', toggleHelp);
  return (
    <div className="bench">
      <Guard shown={route} instead={JobStopped}>
        <Job />
      </Guard>
      <Guard shown={route} instead={ScreenStopped}>
        <Screen />
      </Guard>
      <div className="told">
        <BesideLine build={build} />
        <ProblemLine />
      </div>
      <Strip />
      <CuePicture />
      <SettingsSheet />
      <HelpSheet />
    </div>
  );
}
