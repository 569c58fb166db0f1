import { useEffect, useState } from 'react';
import { assemblyName } from '../../../../shared/job/records/build.ts';
import { swapNotes } from '../../../../shared/job/swap/swapWords.ts';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { writeDeed } from '../../../stores/notebook.ts';
import { readDrawer, useDrawer } from '../../../stores/drawer.ts';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import { expectedLines } from '../plan/words.ts';
import { readTool, useTool } from '../../checks/typed/tool.ts';
import { ToolFields } from '../../checks/typed/ToolFields.tsx';
import { AdjusterTurns } from './AdjusterTurns.tsx';
import { faultsIn, measuredDrafts, readMeasured } from './measured.ts';
import { openTrial } from './openTrial.ts';
import { stackOf, stackWords } from './stacks.ts';
import { SwapRow } from './SwapRow.tsx';
import type { CardProps } from './cardProps.ts';

/** What comes out, what goes in and where, and what should be seen then; the pack is measured here, before assembly. */
export function SwapCard({ build, swap }: CardProps) {
  const units = useSession((session) => session.units);
  const drawer = useDrawer((seen) => seen.drawer);
  const [drafts, setDrafts] = useState(() => measuredDrafts(swap, units));
  const [start] = useState(drafts);
  const [tool, setTool, known] = useTool('length');
  const [tried, setTried] = useState(false);
  useEffect(() => void readDrawer(), []);
  const how = readTool(tool, 'length');
  const faults = faultsIn(swap, drafts, units);
  const trial = build.assemblies.find(({ id }) => id === swap.assembly);
  const opened = build.assemblies.find((one) => one.swap === swap.id);
  const keep = async (): Promise<void> => {
    setTried(true);
    const packs = readMeasured(swap, drafts, drawer);
    if (packs === undefined || !how.ok) return;
    await writeDeed({ kind: 'packs-measured', swap: swap.id, how: how.value, packs: [...packs] });
  };
  const all = readMeasured(swap, drafts, drawer) !== undefined;
  const kept = swap.lines.length === 0 || (swap.measured !== undefined && drafts === start);
  const right = faults.every((fault) => fault === undefined);
  const open = (): void => void openTrial(build, swap, drawer);
  const next: NextAction =
    opened !== undefined
      ? {
          words: `Go to ${assemblyName(opened).toLowerCase()}`,
          run: () => go({ at: 'build', build: build.id, assembly: opened.id }),
        }
      : kept && right
        ? { words: 'Open the next trial', run: open }
        : { words: 'Keep the measured packs', run: () => void keep(), disabled: kept };
  return (
    <>
      <Stage
        title={`Swap card${trial === undefined ? '' : ` after ${assemblyName(trial).toLowerCase()}`}`}
        aside={<Button onPress={() => go({ at: 'drawer', build: build.id })}>Shims at hand</Button>}
      >
        <div className="swap">
          {swap.lines.map((line, index) => (
            <SwapRow
              key={line.place}
              makeUp={build.makeUp}
              line={line}
              stack={stackWords(stackOf(drawer, line), units)}
              draft={drafts[index] ?? { text: '', unit: 'mm' }}
              fault={faults[index]}
              onChange={(draft) => setDrafts(drafts.with(index, draft))}
            />
          ))}
          {swap.notches === undefined ? undefined : <AdjusterTurns notches={swap.notches} />}
          {swap.lines.length === 0 ? undefined : (
            <div className="swap__tool">
              <ToolFields
                measure="length"
                draft={tool}
                known={known}
                problem={tried && !how.ok ? how.problem : undefined}
                onChange={setTool}
              />
            </div>
          )}
          <section className="swap__seen">
            <h2 className="plan__heading">To be seen then</h2>
            <ul className="plan__list digits">
              {expectedLines(swap.expected, units).map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </section>
        </div>
      </Stage>
      <Words
        title={titleOf({
          opened: opened !== undefined,
          right,
          kept,
          all,
          fault: faults.find((one) => one !== undefined),
        })}
        next={next}
        others={
          kept && !right && opened === undefined ? (
            <Button onPress={open}>Put it together all the same</Button>
          ) : undefined
        }
      >
        {swapNotes(build.makeUp, swap, units).map((note) => (
          <p key={note}>{note}</p>
        ))}
        <p>
          {right
            ? 'Squeeze the pack flat and measure it as one. A wrong stack costs nothing here and an hour later.'
            : 'Build the stack again and measure it before anything goes together.'}
        </p>
      </Words>
    </>
  );
}

interface Standing {
  readonly opened: boolean;
  readonly right: boolean;
  readonly kept: boolean;
  readonly all: boolean;
  readonly fault: string | undefined;
}

function titleOf({ opened, right, kept, all, fault }: Standing): string {
  if (fault !== undefined) return fault;
  if (opened) return 'It has been put together by this card';
  if (kept && right) return 'The packs are as wanted';
  return all ? 'The packs fit; keep them' : 'Measure each pack before it goes in';
}
