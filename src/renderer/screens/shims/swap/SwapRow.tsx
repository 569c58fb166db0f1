import { showText } from '../../../../shared/basics/show.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import type { SwapLine } from '../../../../shared/job/records/swap.ts';
import { changeWords, whereWords } from '../../../../shared/job/swap/swapWords.ts';
import { insideOf } from '../../../../shared/basics/recorded.ts';
import type { QuantityDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { useSession } from '../../../stores/session.ts';
import { placeWords } from '../../checks/typed/shims.ts';

interface SwapRowProps {
  readonly makeUp: MakeUp;
  readonly line: SwapLine;
  readonly stack: string;
  readonly draft: QuantityDraft;
  readonly fault: string | undefined;
  /** Whether it is the first thing to do on the card. */
  readonly focused: boolean;
  readonly onChange: (draft: QuantityDraft) => void;
}

/** One place: the pack that comes out, the one that goes in, and what was measured of it. */
export function SwapRow({ makeUp, line, stack, draft, fault, focused, onChange }: SwapRowProps) {
  const units = useSession((session) => session.units);
  const name = placeWords[line.place];
  const typed = draft.text.trim() !== '';
  return (
    <div className="swap__line" role="group" aria-label={name}>
      <div className="swap__where">
        <span className="swap__name">{name}</span>
        <span className="quiet">{whereWords(makeUp, line)}</span>
      </div>
      <p className="swap__number">
        <span className="quiet">Comes out</span>
        <span className="digits">{showText(insideOf(line.out), 'length', units)}</span>
      </p>
      <p className="swap__number swap__number--in">
        <span className="quiet">Goes in</span>
        <span className="digits">{showText(line.wanted_mm, 'length', units)}</span>
        <span>{changeWords(line, units)}</span>
      </p>
      <div className="swap__measured">
        <QuantityField
          asked
          autoFocus={focused}
          label={`${name} as measured`}
          measure="length"
          draft={draft}
          error={fault}
          onChange={onChange}
        />
        {typed && fault === undefined ? (
          <p className="swap__fits">
            <StateMark shape="within" size={18} /> Fits
          </p>
        ) : undefined}
      </div>
      <p className="swap__stack quiet digits">{stack}</p>
    </div>
  );
}
