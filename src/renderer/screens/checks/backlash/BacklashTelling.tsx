import { showText } from '../../../../shared/basics/show.ts';
import type { Limit, SpecSheet } from '../../../../shared/job/records/specSheet.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import type { Run } from '../../../live/run.ts';
import { useSession } from '../../../stores/session.ts';
import { limitWords } from '../../../../shared/presentation/words/limits.ts';
import { reasonSentence } from '../../../../shared/presentation/words/refusals.ts';
import { stationSentence } from './sentences.ts';

interface BacklashTellingProps {
  readonly run: Run | undefined;
  readonly how: string;
  readonly limit: Limit | undefined;
  readonly sheet: SpecSheet | undefined;
}

/** What the last station came to, or why it was refused; before the first, what to do. */
export function BacklashTelling({ run, how, limit, sheet }: BacklashTellingProps) {
  const units = useSession((session) => session.units);
  const last = run?.stations.at(-1);
  const number = run?.stations.length ?? 0;
  return (
    <>
      {last === undefined ? (
        <p>{how}</p>
      ) : (
        <p>
          <strong>
            {isNone(last.value)
              ? `Station ${number}: ${last.why ?? reasonSentence(last.value.none)}`
              : stationSentence({ number, station: last, limit, sheet }, units)}
          </strong>
          {isNone(last.value) ? '' : ` From ${last.rocks} rocks, ± ${showText(last.U95, 'length', units)}.`}
        </p>
      )}
      <p className="quiet">
        {limit === undefined
          ? 'No limit is entered for backlash felt this way.'
          : `Window ${limitWords(limit, units)}.`}
      </p>
    </>
  );
}
