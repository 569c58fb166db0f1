import { type RefObject, useRef, useState } from 'react';
import { Button } from '../parts/Button.tsx';
import { Stage } from '../parts/Stage.tsx';
import { Words } from '../parts/Words.tsx';
import { useBenchSeen } from '../stores/bench.ts';
import { buildOf, go, useRoute } from '../stores/route.ts';
import type { InsteadProps } from './Guard.tsx';
import { faultWords, stopReport } from './stopReport.ts';
import './screenStopped.css';

/** In place of a screen that could not be drawn: what happened, the way on, and a report to hand on. */
export function ScreenStopped({ stopped, again }: InsteadProps) {
  const route = useRoute(({ route }) => route);
  const version = useBenchSeen((seen) => seen.about?.version ?? 'of unknown version');
  const [at] = useState(() => new Date().toISOString());
  const report = stopReport({ stopped, route, version, at });
  const build = buildOf(route);
  const shown = useRef<HTMLPreElement>(null);
  return (
    <>
      <Stage title="This screen stopped">
        <WhatHappened report={report} shown={shown} />
      </Stage>
      <Words
        title="Go on"
        next={{ words: 'Try this screen again', run: again }}
        others={
          <>
            <CopyReport report={report} shown={shown} />
            <Button onPress={() => go(build === undefined ? { at: 'builds' } : { at: 'build', build })}>
              {build === undefined ? 'To all builds' : 'Back to the stand'}
            </Button>
          </>
        }
      >
        <p>{faultWords(stopped.error)}</p>
        <p className="quiet">If it stops again, copy the report for whoever looks after this bench.</p>
      </Words>
    </>
  );
}

interface ReportProps {
  readonly report: string;
  /** Where the report stands on the page. */
  readonly shown: RefObject<HTMLPreElement | null>;
}

const WhatHappened = ({ report, shown }: ReportProps) => (
  <>
    <p>It met something it was not made for, and could not be drawn any further.</p>
    <p>
      The bench goes on: readings are still taken, and what was recorded is kept. What was being typed here and not yet
      written down may be gone.
    </p>
    <h2 className="stopped__title">The report</h2>
    <pre ref={shown} className="stopped__report" tabIndex={0}>
      {report}
    </pre>
  </>
);

/** Where the window may not write to the clipboard, the report lies marked and is copied by hand. */
function CopyReport({ report, shown }: ReportProps) {
  const [words, setWords] = useState('Copy the report');
  const copy = (): void => {
    if (shown.current !== null) getSelection()?.selectAllChildren(shown.current);
    void navigator.clipboard.writeText(report).then(
      () => setWords('Report copied'),
      () => setWords('Marked: press Ctrl+C'),
    );
  };
  return <Button onPress={copy}>{words}</Button>;
}
