import { useRef, useState } from 'react';
import { type LineFormat, parseLineFormat } from '../../../../shared/gauges/lineFormat.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { Button } from '../../../parts/Button.tsx';

/** The line format as a small file that another bench can read. */
export function FormatFile({
  gauge,
  onFormat,
}: {
  readonly gauge: Gauge;
  readonly onFormat: (format: LineFormat) => void;
}) {
  const chooser = useRef<HTMLInputElement>(null);
  const [problem, setProblem] = useState<string>();
  const read = async (file: File | undefined): Promise<void> => {
    const format = file === undefined ? undefined : formatIn(await file.text());
    if (format === undefined) return;
    setProblem(format.ok ? undefined : `${format.problem.sentence} ${format.problem.remedy}`);
    if (format.ok) onFormat(format.value);
  };
  return (
    <div className="format-file">
      <input
        ref={chooser}
        type="file"
        accept="application/json,.json"
        aria-label="Line format file"
        hidden
        onChange={(event) => void read(event.currentTarget.files?.[0])}
      />
      <Button onPress={() => chooser.current?.click()}>Take its format from a file</Button>
      <Button disabled={gauge.format === undefined} onPress={() => save(gauge)}>
        Save its format as a file
      </Button>
      {problem === undefined ? undefined : <p role="alert">{problem}</p>}
    </div>
  );
}

function formatIn(text: string): ReturnType<typeof parseLineFormat> {
  try {
    return parseLineFormat(JSON.parse(text));
  } catch {
    return parseLineFormat(undefined);
  }
}

function save(gauge: Gauge): void {
  const parsed = parseLineFormat(gauge.format ?? 'auto');
  if (!parsed.ok) return;
  const name = parsed.value.name === '' ? gauge.label : parsed.value.name;
  const place = document.createElement('a');
  place.href = URL.createObjectURL(new Blob([`${JSON.stringify(parsed.value, undefined, 2)}\n`]));
  place.download = `${name.replaceAll(/[^\p{L}\p{N} _-]/gu, '')}.line-format.json`;
  place.click();
  URL.revokeObjectURL(place.href);
}
