import type { AttemptHeard, LearnedAnswer } from '../../../../shared/contract/learning.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { Button } from '../../../parts/Button.tsx';
import { receivedWords } from './received.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { FormatFile } from './FormatFile.tsx';
import { KnownAmount } from './KnownAmount.tsx';
import { LinesHeard } from './LinesHeard.tsx';
import { learnFor_s, type Learning, type LearnPhase, useLearning } from './useLearning.ts';

/** How a gauge writes its lines, found out while its spindle is moved, and held against a known amount before it counts. */
export function LearnGauge({ gauge, onDone }: { readonly gauge: Gauge; readonly onDone: () => void }) {
  const learning = useLearning(gauge);
  const { phase, attempts, learned, keep } = learning;
  return (
    <>
      <Stage title={`How ${gauge.label} writes`}>
        {phase === 'confirm' ? <KnownAmount gauge={gauge} onFormat={(format) => void keep(format)} /> : undefined}
        {phase === 'learned' && learned !== undefined ? <Samples learned={learned} /> : undefined}
        {phase === 'confirm' ? undefined : <Attempts attempts={attempts} />}
        {phase === 'ready' ? (
          <div className="learn-ready">
            <LinesHeard gauge={gauge.id} step={gauge.resolution} />
            <FormatFile gauge={gauge} onFormat={(format) => void keep(format)} />
          </div>
        ) : undefined}
      </Stage>
      <LearnWords learning={learning} onDone={onDone} />
    </>
  );
}

interface LearnWordsProps {
  readonly learning: Learning;
  readonly onDone: () => void;
}

/** What the hand does next, and what else can be made of the lines. */
function LearnWords({ learning, onDone }: LearnWordsProps) {
  const { phase, learned, listen, keep } = learning;
  const again = { words: phase === 'ready' ? 'Listen' : 'Listen again', run: () => void listen() };
  const found = phase === 'learned' && learned !== undefined && learned.samples.length > 0 ? learned : undefined;
  const next: Readonly<Record<LearnPhase, NextAction | undefined>> = {
    ready: again,
    listening: undefined,
    learned:
      found === undefined ? again : { words: 'Read it this way', run: () => void keep(found.format, found.link) },
    confirm: { words: 'Done', run: onDone },
  };
  return (
    <Words
      title={titles[phase]}
      next={next[phase]}
      others={
        <>
          {found === undefined ? undefined : <Button onPress={again.run}>Listen again</Button>}
          {(phase === 'learned' ? (learned?.alternatives ?? []) : []).map((format, n) => (
            <Button key={JSON.stringify(format)} onPress={() => void keep(format, learned?.link)}>
              {`Read it another way (${n + 1})`}
            </Button>
          ))}
          {phase === 'listening' || phase === 'confirm' ? undefined : (
            <Button onPress={onDone}>Leave it as it was</Button>
          )}
        </>
      }
    >
      <p>{explanations[phase]}</p>
    </Words>
  );
}

const titles: Readonly<Record<LearnPhase, string>> = {
  ready: 'Move the spindle while the bench listens',
  listening: `Listening for ${learnFor_s} seconds: keep moving the spindle`,
  learned: 'This is how its lines were read',
  confirm: 'Move it by an amount you know',
};

const explanations: Readonly<Record<LearnPhase, string>> = {
  ready:
    'It listens with the settings of the link. Only where it hears no text it tries others, and it sends nothing but the request in the link.',
  listening: 'Each attempt stands on the stage with what it heard.',
  learned: 'Hold the reading against what the gauge shows.',
  confirm: 'A feeler, a block or a weight on an arm shows a wrong unit or a scale ten times off, which no line can.',
};

function Samples({ learned }: { readonly learned: LearnedAnswer }) {
  const doubts = learned.doubts.map((doubt) => <li key={doubt}>{doubt}</li>);
  if (learned.samples.length === 0) return <ul className="doubts">{doubts}</ul>;
  const words = receivedWords();
  return (
    <>
      <ul className="doubts">{doubts}</ul>
      <table className="lines digits">
        <thead>
          <tr>
            <th scope="col">As it came</th>
            <th scope="col">Read as</th>
          </tr>
        </thead>
        <tbody>
          {learned.samples.map(({ raw, value, unit }, n) => (
            // oxlint-disable-next-line react/no-array-index-key -- lines may be the same, and never change places
            <tr key={n}>
              <td>{raw}</td>
              <td>{words({ value, unit }, learned.samples)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

function Attempts({ attempts }: { readonly attempts: readonly AttemptHeard[] }) {
  if (attempts.length === 0) return undefined;
  return (
    <ol className="attempts" aria-label="What was tried">
      {attempts.map(({ link, heard }, n) => (
        // oxlint-disable-next-line react/no-array-index-key -- attempts only grow at the end
        <li key={n}>
          <span className="attempts__link">{settingsWords(link)}</span>
          <span className="quiet">{heardWords(heard)}</span>
        </li>
      ))}
    </ol>
  );
}

const settingsWords = (link: string): string => link.split('?')[1]?.replaceAll('&', ', ') ?? link;

function heardWords(heard: AttemptHeard['heard']): string {
  if (heard === undefined) return 'listening …';
  if (heard.bytes === 0) return 'nothing was heard';
  return `${heard.bytes} bytes, ${Math.round(heard.likeText * 100)} % like text: ${heard.sample}`;
}
