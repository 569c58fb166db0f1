import { useEffect, useState } from 'react';
import { whyInWords } from '../../../../shared/gauges/gaugeReading.ts';
import type { QuantityTyped } from '../../../../shared/basics/recorded.ts';
import type { Heard } from '../../../../shared/gauges/heard.ts';
import { onHeard } from '../../../live/slots.ts';
import { receivedWords } from './received.ts';

const shown = 14;
/** Lines are for reading: four times a second is as fast as anyone can follow. */
const every_ms = 250;

/** The last lines as they came: the value as received with its unit, or the raw bytes of a line that could not be read. */
export function LinesHeard({ gauge, step }: { readonly gauge: string; readonly step: QuantityTyped }) {
  const [lines, setLines] = useState<readonly Heard[]>([]);
  useEffect(() => {
    let last: readonly Heard[] = [];
    const stop = onHeard((heard) => {
      if ('press' in heard || heard.gauge === gauge) last = [...last.slice(1 - shown), heard];
    });
    const showing = setInterval(() => setLines(last), every_ms);
    return () => {
      stop();
      clearInterval(showing);
    };
  }, [gauge]);
  if (lines.length === 0)
    return <p className="quiet">Each line stands here as it comes, beside what was read from it.</p>;
  const words = receivedWords(step);
  const readings = lines.filter((line) => 'value' in line);
  return (
    <table className="lines digits">
      <thead>
        <tr>
          <th scope="col">Row</th>
          <th scope="col">Received</th>
        </tr>
      </thead>
      <tbody>
        {lines.toReversed().map((line) => (
          <tr key={line.seq}>
            <td className="quiet">{line.seq}</td>
            <td>{'value' in line ? words(line, readings) : otherWords(line)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function otherWords(line: Exclude<Heard, { readonly value: number }>): string {
  if ('press' in line) return line.press === 'next' ? 'Pressed: next' : 'Pressed: again';
  return `${line.raw ?? ''} – not readable: ${whyInWords(line.none)}`;
}
