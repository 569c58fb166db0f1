import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { Reveal } from '../../../parts/Reveal.tsx';
import type { LinkFieldsProps } from './linkFieldsProps.ts';
import type { LinkDraft } from './linkDraft.ts';

const parityWords: Readonly<Record<LinkDraft['parity'], string>> = {
  none: 'no parity',
  even: 'even parity',
  odd: 'odd parity',
  mark: 'mark parity',
  space: 'space parity',
};
const parities = (['none', 'even', 'odd', 'mark', 'space'] as const).map((value) => ({
  value,
  words: parityWords[value],
}));

const flags = [
  { value: 'as-it-is', words: 'As it is' },
  { value: '1', words: 'On' },
  { value: '0', words: 'Off' },
] as const;
const functionWords: Readonly<Record<LinkDraft['function'], string>> = {
  3: 'holding registers',
  4: 'input registers',
};
const functions = (['3', '4'] as const).map((value) => ({ value, words: `${functionWords[value]} (${value})` }));

/** What seldom differs of a serial line: its frame, and the lines that power some interfaces. */
export const SerialSettings = ({ draft, onChange }: LinkFieldsProps) => (
  <Reveal inForm label="Bits, parity, handshake" words={serialWords(draft)}>
    <div className="reveal__pair">
      <Choice
        label="Data bits"
        value={draft.bits}
        onChange={(bits) => onChange({ bits })}
        options={(['8', '7'] as const).map(asItIs)}
      />
      <StopBits draft={draft} onChange={onChange} />
    </div>
    <Parity draft={draft} onChange={onChange} />
    <div className="reveal__pair">
      <Pick label="DTR line" value={draft.dtr} options={flags} onChange={(dtr) => onChange({ dtr })} />
      <Pick label="RTS line" value={draft.rts} options={flags} onChange={(rts) => onChange({ rts })} />
    </div>
    <p className="quiet">DTR and RTS give some interfaces their power: their manual says which is on.</p>
  </Reveal>
);

/** What seldom differs of a gauge asked over Modbus, whose frame has 8 bits always. */
export const ModbusSettings = ({ draft, errors, onChange }: LinkFieldsProps) => (
  <Reveal inForm label="Parity, kind of register, how often" words={modbusWords(draft)} error={errors.every}>
    <div className="reveal__pair">
      <Parity draft={draft} onChange={onChange} />
      <StopBits draft={draft} onChange={onChange} />
    </div>
    <Pick
      label="Kind of register"
      value={draft.function}
      options={functions}
      onChange={(asked) => onChange({ function: asked })}
    />
    <Field
      label="Asked every so many milliseconds"
      inputMode="numeric"
      value={draft.every}
      error={errors.every}
      onChange={(every) => onChange({ every })}
    />
  </Reveal>
);

type SettingProps = Omit<LinkFieldsProps, 'errors'>;

const Parity = ({ draft, onChange }: SettingProps) => (
  <Pick label="Parity" value={draft.parity} options={parities} onChange={(parity) => onChange({ parity })} />
);

const StopBits = ({ draft, onChange }: SettingProps) => (
  <Choice
    label="Stop bits"
    value={draft.stop}
    onChange={(stop) => onChange({ stop })}
    options={(['1', '2'] as const).map(asItIs)}
  />
);

const asItIs = <Value extends string>(value: Value) => ({ value, words: value });

const frameWords = ({ parity, stop }: LinkDraft): readonly string[] => [
  parityWords[parity],
  stop === '2' ? '2 stop bits' : '1 stop bit',
];

/** How the line is set, in one breath; a handshake line only where somebody set it. */
function serialWords(draft: LinkDraft): string {
  const held = [
    ['DTR', draft.dtr],
    ['RTS', draft.rts],
  ].flatMap(([name, flag]) => (flag === 'as-it-is' ? [] : `${name} ${flag === '1' ? 'on' : 'off'}`));
  return [`${draft.bits} bits`, ...frameWords(draft), ...held].join(', ');
}

const modbusWords = (draft: LinkDraft): string =>
  [...frameWords(draft), functionWords[draft.function], `every ${draft.every} ms`].join(', ');
