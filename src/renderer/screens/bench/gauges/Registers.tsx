import { useState } from 'react';
import type { Answer } from '../../../../shared/contract/contract.ts';
import { type CouldBe, couldBe } from '../../../../shared/gauges/modbus/couldBe.ts';
import { Button } from '../../../parts/Button.tsx';
import { ask } from '../../../stores/ask.ts';
import { type LinkDraft, readLinkDraft } from './linkDraft.ts';

interface RegistersProps {
  readonly draft: LinkDraft;
  readonly onChange: (change: Partial<LinkDraft>) => void;
}

/** What stands in the gauge's registers now and which readings that could be: the one on its display is pressed. */
export function Registers({ draft, onChange }: RegistersProps) {
  const [found, setFound] = useState<Answer<'gauges.registers'>>();
  const [why, setWhy] = useState<string>();
  const link = readLinkDraft(draft);
  const look = async (): Promise<void> => {
    if (!link.ok) return;
    setWhy(undefined);
    const answer = await ask('gauges.registers', { link: link.value }, ({ sentence, remedy }) =>
      setWhy(`${sentence} ${remedy}`),
    );
    setFound(answer);
  };
  const scale = Number(draft.scale.replace(',', '.'));
  return (
    <div className="registers">
      <Button onPress={() => void look()} disabled={!link.ok}>
        {found === undefined ? 'Show its registers' : 'Look again'}
      </Button>
      {why === undefined ? undefined : <p role="alert">{why}</p>}
      {found === undefined ? undefined : (
        <>
          <p className="digits">
            Registers {found.first} and {found.first + 1}: {found.words.join(' and ')}. Press the reading that stands on
            the gauge.
          </p>
          <div className="registers__ways">
            {couldBe(found.words, Number.isFinite(scale) ? scale : 1).map((way) => (
              <Button
                key={`${way.type} ${way.order}`}
                look={way.type === draft.type && way.order === draft.order ? 'plain' : 'quiet'}
                onPress={() => onChange({ type: way.type, order: way.order })}
              >
                {`${numberWords(way.value)}: ${wayWords(way)}`}
              </Button>
            ))}
          </div>
        </>
      )}
    </div>
  );
}

/** As a gauge shows it: no more than nine digits, and no noughts behind. */
const numberWords = (value: number): string => String(Number(value.toPrecision(9))).replace('-', '−');

const wayWords = ({ type, order }: CouldBe): string =>
  `${typeWords[type]}${type.endsWith('16') ? '' : order === 'high-first' ? ', upper half first' : ', upper half second'}`;

const typeWords: Readonly<Record<CouldBe['type'], string>> = {
  s16: 'whole, one register',
  u16: 'whole without a sign, one register',
  s32: 'whole, two registers',
  u32: 'whole without a sign, two registers',
  f32: 'with a point, two registers',
};
