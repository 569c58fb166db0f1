import { useState } from 'react';
import type { Gauge } from '../../../shared/records/gauge.ts';
import { Readout } from '../../instruments/Readout.tsx';
import { Trace } from '../../instruments/Trace.tsx';
import { Button } from '../../parts/Button.tsx';
import { goToFirstWrong } from '../../parts/firstWrong.ts';
import { Stage } from '../../parts/Stage.tsx';
import { StateMark } from '../../parts/StateMark.tsx';
import { Words } from '../../parts/Words.tsx';
import { ask } from '../../stores/ask.ts';
import { isLive, loadGauges, useGauges } from '../../stores/gauges.ts';
import { go } from '../../stores/route.ts';
import { linkWords } from '../../words/links.ts';
import { gaugeDraftOf, readGauge } from './draft.ts';
import { GaugeForm } from './GaugeForm.tsx';
import { GaugeCheckUp } from './GaugeCheckUp.tsx';
import { LastCheck } from './LastCheck.tsx';
import { LearnGauge } from './LearnGauge.tsx';
import { WhichPort } from './WhichPort.tsx';
import { LinesHeard } from './LinesHeard.tsx';
import '../check/measure.css';

/** A gauge: what it says now, how its link stands, the lines as they come, and its record. */
export function OneGauge({ gauge }: { readonly gauge: Gauge }) {
  const state = useGauges((seen) => seen.states[gauge.id]);
  const [editing, setEditing] = useState(false);
  const [learning, setLearning] = useState(false);
  const [checking, setChecking] = useState(false);
  const [draft, setDraft] = useState(() => gaugeDraftOf(gauge));
  const [tried, setTried] = useState(false);
  const read = readGauge(draft);
  const live = isLive(state);
  const save = async (): Promise<void> => {
    setTried(true);
    if (!read.ok) return goToFirstWrong();
    if ((await ask('gauges.save', { gauge: read.value })) === undefined) return;
    await loadGauges();
    setEditing(false);
  };
  const edit = (): void => {
    // Its port or its format may have changed since: the draft begins with the record as it is now.
    setDraft(gaugeDraftOf(gauge));
    setEditing(!editing);
  };
  const plug = (): void => void ask(live ? 'gauges.unplug' : 'gauges.plug-in', { gauge: gauge.id });
  const words = linkWords(state);
  const plugging = gauge.link === undefined ? undefined : { words: live ? 'Put it away' : 'Plug it in', run: plug };
  const keep = { words: 'Keep the record', run: () => void save() };
  if (checking) return <GaugeCheckUp gauge={gauge} onDone={() => setChecking(false)} />;
  if (learning) return <LearnGauge gauge={gauge} onDone={() => setLearning(false)} />;
  return (
    <>
      <Stage title={gauge.label} fill={!editing}>
        {editing ? (
          <GaugeForm
            draft={draft}
            errors={tried ? (read.errors ?? {}) : {}}
            onChange={(change) => setDraft({ ...draft, ...change })}
          />
        ) : (
          <GaugePicture gauge={gauge} />
        )}
      </Stage>
      <Words
        title={gauge.kind === 'typed' ? 'Read off and typed' : words.sentence}
        next={
          editing ? keep : live ? { words: 'Just measure with it', run: () => go({ at: 'just-measure' }) } : plugging
        }
        others={
          <>
            <Button onPress={edit}>{editing ? 'Leave it as it was' : 'Change the record'}</Button>
            {writesLines(gauge) && !editing ? (
              <Button onPress={() => setLearning(true)}>Learn its lines</Button>
            ) : undefined}
            {live && !editing ? <Button onPress={() => setChecking(true)}>Check it today</Button> : undefined}
            {live && !editing ? <Button onPress={plug}>Put it away</Button> : undefined}
          </>
        }
      >
        {state?.problem === undefined ? undefined : (
          <p>
            <StateMark shape="outside" size={16} /> <strong>{state.problem.sentence}</strong> {state.problem.remedy}
          </p>
        )}
        <LastCheck gauge={gauge} />
        {state?.problem?.kind === 'which-port' ? <WhichPort gauge={gauge} /> : undefined}
        {state === undefined ? undefined : (
          <p className="digits">
            {state.readings} readings, {state.rate_per_s.toFixed(0)} a second. {unreadableWords(state.unreadable)}
          </p>
        )}
      </Words>
    </>
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
        <LinesHeard gauge={gauge.id} />
      </div>
    </div>
  );
}
