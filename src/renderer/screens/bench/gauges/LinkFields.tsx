import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Reveal } from '../../../parts/Reveal.tsx';
import { asWritten, Suggest } from '../../../parts/Suggest.tsx';
import { parseLink } from '../../../../shared/gauges/link.ts';
import { useGauges } from '../../../stores/gauges.ts';
import type { LinkFieldsProps } from './linkFieldsProps.ts';
import { AskFields } from './AskFields.tsx';
import { ModbusSettings, SerialSettings } from './LineSettings.tsx';
import { type LinkDraft, linkDraftOf, type LinkErrors, readLinkDraft } from './linkDraft.ts';
import { ModbusFields } from './ModbusFields.tsx';

interface WholeProps {
  readonly draft: LinkDraft;
  readonly errors: LinkErrors;
  readonly onChange: (draft: LinkDraft) => void;
}

/** How the gauge is reached: only what this sort of link has, the rare settings behind a button. */
export function LinkFields({ draft, errors, onChange }: WholeProps) {
  // A field that is touched says more than a link that was written before.
  const fields: LinkFieldsProps = {
    draft,
    errors,
    onChange: (change) => onChange({ ...draft, ...change, written: undefined }),
  };
  return (
    <>
      <div className="gauge-form__wide">
        <Choice
          label="How it is connected"
          value={draft.sort}
          onChange={(sort) => fields.onChange({ sort })}
          options={[
            { value: 'serial', words: 'Serial or USB port' },
            { value: 'modbus', words: 'Modbus at a port' },
            { value: 'tcp', words: 'Network' },
            { value: 'keyboard', words: 'Types like a keyboard' },
            { value: 'none', words: 'Not yet' },
          ]}
        />
      </div>
      {draft.sort === 'serial' ? (
        <>
          <PortFields {...fields} />
          <AskFields {...fields} />
          <SerialSettings {...fields} />
        </>
      ) : undefined}
      {draft.sort === 'modbus' ? (
        <>
          <PortFields {...fields} />
          <ModbusFields {...fields} />
          <ModbusSettings {...fields} />
        </>
      ) : undefined}
      {draft.sort === 'tcp' ? (
        <>
          <HostFields {...fields} />
          <AskFields {...fields} />
        </>
      ) : undefined}
      <WholeLink draft={draft} errors={errors} onChange={onChange} />
    </>
  );
}

const bauds = asWritten(['1200', '2400', '4800', '9600', '19200', '38400', '57600', '115200']);

/** The ports there are, each with what hangs at it already. */
function usePorts() {
  const ports = useGauges((seen) => seen.ports);
  const gauges = useGauges((seen) => seen.gauges);
  return (ports ?? []).flatMap(({ link, name }) => {
    const path = pathOf(link);
    if (path === undefined) return [];
    const taken = gauges?.find((gauge) => gauge.link !== undefined && pathOf(gauge.link) === path);
    const words = name.includes(path) ? name : `${name} \u2013 ${path}`;
    return { value: path, words: taken === undefined ? words : `${words}, of ${taken.label}` };
  });
}

function pathOf(link: string): string | undefined {
  const read = parseLink(link);
  return read.ok && 'path' in read.value ? read.value.path : undefined;
}

function PortFields({ draft, errors, onChange }: LinkFieldsProps) {
  const options = usePorts();
  return (
    <>
      <Suggest
        label="Port"
        value={draft.path}
        options={options}
        error={errors.path}
        onChange={(path) => onChange({ path })}
      />
      <Suggest
        label="Baud rate"
        inputMode="numeric"
        value={draft.baud}
        options={bauds}
        error={errors.baud}
        onChange={(baud) => onChange({ baud })}
      />
    </>
  );
}

const HostFields = ({ draft, errors, onChange }: LinkFieldsProps) => (
  <>
    <Field
      label="Host"
      value={draft.host}
      error={errors.host}
      hint="Of the serial server: its name or its address."
      onChange={(host) => onChange({ host })}
    />
    <Field
      label="Port number"
      inputMode="numeric"
      value={draft.port}
      error={errors.port}
      onChange={(port) => onChange({ port })}
    />
  </>
);

/** The same as one line of text: to be read off, or pasted from another bench. */
function WholeLink({ draft, errors, onChange }: WholeProps) {
  const read = readLinkDraft(draft);
  const text = draft.written ?? (read.ok ? read.value : '');
  const write = (written: string): void =>
    onChange({ ...(parseLink(written).ok ? linkDraftOf(written) : draft), written });
  return (
    <Reveal inForm label="The same as a link" words={text === '' ? 'None' : text} error={errors.link}>
      <Field
        label="Link"
        value={text}
        error={errors.link}
        hint="As the command line and another bench write it. A link put in here fills in the fields."
        onChange={write}
      />
    </Reveal>
  );
}
