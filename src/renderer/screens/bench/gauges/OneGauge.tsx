import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { otherUnit } from '../../../live/slots.ts';
import { Readout } from '../../../instruments/Readout.tsx';
import { Trace } from '../../../instruments/Trace.tsx';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { Words } from '../../../parts/Words.tsx';
import { ask } from '../../../stores/ask.ts';
import { isLive, isOpen, loadPorts, useGauges } from '../../../stores/gauges.ts';
import { type GaugesRoute, go, goInstead } from '../../../stores/route.ts';
import { linkWords } from '../../../words/links.ts';
import { GaugeCheckUp } from './GaugeCheckUp.tsx';
import { GaugeRecord } from './GaugeRecord.tsx';
import { LastCheck } from './LastCheck.tsx';
import { LearnGauge } from './LearnGauge.tsx';
import { WhichPort } from './WhichPort.tsx';
import { LinesHeard } from './LinesHeard.tsx';
import '../../checks/check/measure.css';

interface OneGaugeProps {
  readonly gauge: Gauge;
  readonly doing: GaugesRoute['doing'];
}

/** A gauge, and what is done with it. */
export function OneGauge({ gauge, doing }: OneGaugeProps) {
  const onDone = (): void => goInstead({ at: 'gauges', gauge: gauge.id });
  if (doing === 'record') return <GaugeRecord gauge={gauge} onDone={onDone} />;
  if (doing === 'learn' && writesLines(gauge)) return <LearnGauge gauge={gauge} onDone={onDone} />;
  if (doing === 'check' && gauge.kind !== 'typed') return <GaugeCheckUp gauge={gauge} onDone={onDone} />;
  return <GaugePage gauge={gauge} />;
}

/** What it says now, how its link stands, the lines as they come. */
function GaugePage({ gauge }: { readonly gauge: Gauge }) {
  const state = useGauges((seen) => seen.states[gauge.id]);
  const [live, open] = [isLive(state), isOpen(state)];
  const plug = (): void => void ask(open ? 'gauges.unplug' : 'gauges.plug-in', { gauge: gauge.id });
  const begin = (doing: GaugesRoute['doing']): void => go({ at: 'gauges', gauge: gauge.id, doing });
  const words = linkWords(state);
  const unclear = state?.problem?.kind === 'which-port';
  const look = { words: 'Look for ports again', run: () => void loadPorts() };
  const nothing = open && !live;
  const plugging = gauge.link === undefined ? undefined : unclear ? look : { words: 'Plug it in', run: plug };
  const learn = writesLines(gauge) ? { words: 'Learn its lines', run: () => begin('learn') } : undefined;
  const waiting = nothing ? learn : plugging;
  return (
    <>
      <Stage title={gauge.label} fill={!unclear}>
        {unclear ? <WhichPort gauge={gauge} /> : <GaugePicture gauge={gauge} />}
      </Stage>
      <Words
        title={unclear ? 'Two adapters look the same' : gauge.kind === 'typed' ? 'Read off and typed' : words.sentence}
        next={
          live ? { words: 'Just measure with it', run: () => go({ at: 'just-measure', gauge: gauge.id }) } : waiting
        }
        others={
          <>
            <Button onPress={() => begin('record')}>Change the record</Button>
            {writesLines(gauge) && !unclear && !nothing ? (
              <Button onPress={() => begin('learn')}>Learn its lines</Button>
            ) : undefined}
            {live ? <Button onPress={() => begin('check')}>Check it today</Button> : undefined}
            {open ? <Button onPress={plug}>Put it away</Button> : undefined}
          </>
        }
      >
        {state?.problem === undefined ? undefined : (
          <p>
            <StateMark shape="outside" size={16} /> <strong>{state.problem.sentence}</strong> {state.problem.remedy}
          </p>
        )}
        <OtherKind gauge={gauge} />
        <LastCheck gauge={gauge} />
        {state === undefined || unclear ? undefined : (
          <p className="digits">
            {state.readings} readings, {state.rate_per_s.toFixed(0)} a second.{' '}
            {state.heard ? unreadableWords(state.unreadable) : ''}
          </p>
        )}
      </Words>
    </>
  );
}

/** Looked at anew with each count of the gauge's readings, about once a second. */
function OtherKind({ gauge }: { readonly gauge: Gauge }) {
  const unit = otherUnit(gauge);
  if (unit === undefined) return undefined;
  const kind = gauge.kind === 'torque' ? 'torque gauge' : 'length indicator';
  return (
    <p role="alert">
      <StateMark shape="outside" size={16} /> <strong>{`It sends ${unit}, and its record calls it a ${kind}.`}</strong>{' '}
      No number is taken from it so. Change the record, or look which gauge hangs there.
    </p>
  );
}

/** What is typed and what comes in registers needs no learning. */
const writesLines = ({ link }: Gauge): boolean => /^(?:serial|tcp):/u.test(link ?? '');

const unreadableWords = (count: number): string => {
  if (count === 0) return 'Every line could be read.';
  return count === 1
    ? 'One line could not be read; it is kept as it came.'
    : `${count} lines could not be read; they are kept as they came.`;
};

function GaugePicture({ gauge }: { readonly gauge: Gauge }) {
  if (gauge.kind === 'typed') return <p>Its readings are typed in, and marked as typed wherever they appear.</p>;
  return (
    <div className="measure">
      <div className="measure__top">
        <Readout gauge={gauge} words={`Live reading of ${gauge.label}`} />
      </div>
      <Trace
        gauge={gauge.id}
        quantity={gauge.label}
        dimension={gauge.kind === 'torque' ? 'torque' : 'length'}
        marks={[]}
      />
      <div className="lines-room">
        <LinesHeard gauge={gauge.id} step={gauge.resolution} />
      </div>
    </div>
  );
}
