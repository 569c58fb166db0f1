import { useState } from 'react';
import { againstKnown, type KnownAmount as Found } from '../../../../shared/gauges/learn/knownAmount.ts';
import { type LineFormat, parseLineFormat } from '../../../../shared/gauges/lineFormat.ts';
import { insideOf } from '../../../../shared/basics/recorded.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { Readout } from '../../../instruments/Readout.tsx';
import { slotOf } from '../../../live/slots.ts';
import { Button } from '../../../parts/Button.tsx';
import { emptyDraft, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { useSession } from '../../../stores/session.ts';
import { measureOfKind } from './draft.ts';
import { noCase } from '../../../../shared/basics/noCase.ts';

interface KnownAmountProps {
  readonly gauge: Gauge;
  /** The format as it has to be after what was found. */
  readonly onFormat: (format: LineFormat) => void;
}

/** The gauge is moved by a known amount: what it shows then tells whether unit, scale and sign are right. */
export function KnownAmount({ gauge, onFormat }: KnownAmountProps) {
  const units = useSession((session) => session.units);
  const measure = measureOfKind(gauge.kind, gauge.resolution.unit);
  const [draft, setDraft] = useState(() => emptyDraft(measure, units));
  const [from, setFrom] = useState<number>();
  const [found, setFound] = useState<Found>();
  const [error, setError] = useState<string>();

  const compare = (): void => {
    const known = readDraft(draft, measure, 'known');
    const now = slotOf(gauge.id).value;
    setError(known.ok ? undefined : known.problem.sentence);
    if (!known.ok || now === undefined || from === undefined) return;
    setFound(againstKnown(now - from, insideOf(known.value), insideOf(gauge.resolution)));
  };
  const mended = found === undefined ? undefined : mend(gauge, found);
  return (
    <div className="known">
      <Readout gauge={gauge} words={`Live reading of ${gauge.label}`} />
      <Button onPress={() => setFrom(slotOf(gauge.id).value)}>
        {from === undefined ? 'It stands at the beginning' : 'It stands at the beginning, anew'}
      </Button>
      <QuantityField
        label="Moved in by"
        hint="The thickness laid under it, or the torque of the weight."
        measure={measure}
        draft={draft}
        error={error}
        onChange={setDraft}
      />
      <Button disabled={from === undefined} onPress={compare}>
        It has been moved by that
      </Button>
      {found === undefined ? undefined : (
        <p role="status">
          <StateMark shape={found.is === 'agrees' ? 'within' : 'outside'} size={16} /> {foundWords(found)}
        </p>
      )}
      {mended === undefined ? undefined : <Button onPress={() => onFormat(mended.format)}>{mended.words}</Button>}
    </div>
  );
}

function foundWords(found: Found): string {
  switch (found.is) {
    case 'agrees':
      return 'It shows that amount: unit and scale are right.';
    case 'turned':
      return 'It shows that amount the other way round.';
    case 'other-unit':
      return `Its number is in ${found.reads}, not in the unit it is read in.`;
    case 'scale':
      return `It shows ${found.times} times that amount: its decimal sign stands in another place than believed.`;
    case 'differs':
      return `It shows ${found.times.toFixed(2)} times that amount. Was it moved by exactly that, and read at the right moment?`;
    case 'too-small':
      return 'That is too little to tell: take at least twenty steps of its resolution.';
    default:
      throw noCase(found);
  }
}

/** What of this a line format can put right. */
function mend(gauge: Gauge, found: Found): { readonly words: string; readonly format: LineFormat } | undefined {
  const parsed = parseLineFormat(gauge.format ?? 'auto');
  if (!parsed.ok) return undefined;
  const format = parsed.value;
  if (found.is === 'turned') return { words: 'Turn its sign', format: { ...format, turnSign: !format.turnSign } };
  if (found.is === 'other-unit' && gauge.kind === 'indicator') {
    const ucum = found.reads === 'inches' ? '[in_i]' : 'mm';
    return { words: `Read it in ${found.reads}`, format: { ...format, unit: { is: 'fixed', ucum } } };
  }
  const decimals = found.is === 'scale' ? Math.round(Math.log10(found.times)) : 0;
  if (decimals <= 0 || (format.decimals ?? 0) > 0) return undefined;
  const { decimals: _none, ...rest } = format;
  return { words: `Take its last ${decimals} digits as decimals`, format: { ...rest, impliedDecimals: decimals } };
}
