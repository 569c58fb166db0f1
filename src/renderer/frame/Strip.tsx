import { Button } from '../parts/Button.tsx';
import { useBenchSeen } from '../stores/bench.ts';
import { useGauges } from '../stores/gauges.ts';
import { go } from '../stores/route.ts';
import { switchUnits, useSession } from '../stores/session.ts';
import { toggleSettings } from '../screens/bench/settings/open.ts';
import { toggleHelp } from '../screens/help/open.ts';
import { StripGauge } from './StripGauge.tsx';
import './strip.css';

/** The thin strip at the bottom: every gauge with its live value, and what is one key away from anywhere. */
export function Strip() {
  const units = useSession((session) => session.units);
  return (
    <footer className="strip" aria-label="Gauges">
      <div className="strip__gauges">
        <StripGauges />
      </div>
      <div className="strip__keys">
        <Button look="quiet" keyHint="M" onPress={() => go({ at: 'just-measure' })}>
          Just measure
        </Button>
        <Button look="quiet" keyHint="U" onPress={switchUnits} more="switch the units">
          {units === 'metric' ? 'mm' : 'inch'}
        </Button>
        <Button look="quiet" keyHint="?" onPress={toggleHelp} more="how it is taken, and cautions">
          Help
        </Button>
        <Button look="quiet" keyHint="," onPress={toggleSettings}>
          Settings
        </Button>
      </div>
    </footer>
  );
}

function StripGauges() {
  const gauges = useGauges((seen) => seen.gauges);
  const presence = useBenchSeen((seen) => seen.presence);
  const streaming = gauges?.filter((gauge) => gauge.kind !== 'typed');
  if (streaming === undefined) {
    return <span className="quiet">{presence === 'here' ? 'Asking for the gauges …' : 'Looking for the bench …'}</span>;
  }
  if (streaming.length > 0) return streaming.map((gauge) => <StripGauge key={gauge.id} gauge={gauge} />);
  return (
    <Button look="quiet" onPress={() => go({ at: 'gauges' })} keyHint="G">
      No gauge yet. Plug one in
    </Button>
  );
}
