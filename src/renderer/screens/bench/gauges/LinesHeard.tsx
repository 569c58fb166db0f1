import { useEffect, useState } from 'react';
import { whyInWords } from '../../../../shared/gauges/gaugeReading.ts';
import { type Heard, onHeard } from '../../../live/slots.ts';
import { symbolOf } from '../../../parts/quantity.ts';

const shown = 14;
/** Lines are for reading: four times a second is as fast as anyone can follow. */
const every_ms = 250;

/** The last lines as they came: the value as received with its unit, or the raw bytes of a line that could not be read. */
export function LinesHeard({ gauge }: { readonly gauge: string }) {
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
            <td>{lineWords(line)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function lineWords(line: Heard): string {
  if ('value' in line) return `${line.value} ${symbolOf(line.unit)}`;
  if ('press' in line) return line.press === 'next' ? 'Pressed: next' : 'Pressed: again';
  return `${line.raw ?? ''} – not readable: ${whyInWords(line.none)}`;
}
