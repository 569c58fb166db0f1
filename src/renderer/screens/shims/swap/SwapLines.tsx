import { useMemo } from 'react';
import type { ShimDrawer } from '../../../../shared/job/records/drawer.ts';
import { ShimStacks } from '../../../instruments/ShimStacks.tsx';
import { Form } from '../../../parts/Form.tsx';
import { useSession } from '../../../stores/session.ts';
import type { ToolErrors } from '../../checks/typed/tool.ts';
import { ToolFields } from '../../checks/typed/ToolFields.tsx';
import { expectedLines } from '../plan/words.ts';
import { AdjusterTurns } from './AdjusterTurns.tsx';
import type { CardDraft } from './cardDraft.ts';
import type { CardProps } from './cardProps.ts';
import { cardStacks } from './cardStacks.ts';
import { stackOf, stackWords } from './stacks.ts';
import { SwapRow } from './SwapRow.tsx';

interface SwapLinesProps extends CardProps {
  readonly drawer: ShimDrawer | undefined;
  readonly draft: CardDraft;
  /** What is wrong with the pack of each line, where anything is. */
  readonly faults: readonly (string | undefined)[];
  readonly errors: ToolErrors;
  readonly onChange: (change: Partial<CardDraft>) => void;
  /** Writes the measured packs down. */
  readonly keep: () => void;
}

/** The lines of a card, with what each pack measured. */
export function SwapLines({ build, swap, drawer, draft, faults, errors, onChange, keep }: SwapLinesProps) {
  const units = useSession((session) => session.units);
  const stacks = useMemo(() => cardStacks(swap), [swap]);
  return (
    <Form className="swap" words="Keep the measured packs" submit={keep}>
      {swap.lines.map((line, index) => (
        <SwapRow
          key={line.place}
          makeUp={build.makeUp}
          line={line}
          stack={stackWords(stackOf(drawer, line), units)}
          draft={draft.packs[index] ?? { text: '', unit: 'mm' }}
          fault={faults[index]}
          focused={index === 0 && swap.measured === undefined}
          onChange={(pack) => onChange({ packs: draft.packs.with(index, pack) })}
        />
      ))}
      {build.makeUp?.caseAdjustment === 'threaded-adjusters' ? <AdjusterTurns swap={swap} units={units} /> : undefined}
      <div className="swap__foot">
        {swap.lines.length === 0 ? undefined : (
          <div className="swap__tool">
            <ToolFields measure="length" draft={draft.tool} errors={errors} onChange={(tool) => onChange({ tool })} />
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
        {swap.lines.length === 0 ? undefined : <ShimStacks view={stacks} />}
      </div>
    </Form>
  );
}
