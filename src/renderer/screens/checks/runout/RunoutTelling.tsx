import { showText } from '../../../../shared/basics/show.ts';
import type { Build } from '../../../../shared/job/records/build.ts';
import type { RunoutResult } from '../../../../shared/job/records/measurement.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { noRunoutSentence } from '../../../../shared/measuring/runout/sentences.ts';
import type { Check } from '../../../../shared/job/checks/checks.ts';
import type { Run } from '../../../live/run.ts';
import { useSession } from '../../../stores/session.ts';
import { limitWords } from '../../../../shared/presentation/words/limits.ts';
import { flagSentences } from '../../../words/flags.ts';
import { limitFor } from '../../../../shared/presentation/drawing/stations.ts';
import { closedResultOf, runoutResultOf, waitsAt } from './taken.ts';

/** What the runout means so far: its doubt, its shape, what the stations could miss, and the limit. */
export function RunoutTelling({
  run,
  check,
  build,
}: {
  readonly run: Run | undefined;
  readonly check: Check;
  readonly build: Build;
}) {
  const units = useSession((session) => session.units);
  // Before the turn is begun the stem is not on the gear yet, and what it reads means nothing.
  const begun = run?.settings.kind === 'runout' && (run.settings.mode === 'stations' || run.presses > 0);
  const result = closedResultOf(run) ?? (begun ? runoutResultOf(run) : undefined);
  const waiting = waitsAt(run);
  const quantity = check.limits[0];
  const limit = quantity === undefined ? undefined : limitFor(build.specSheet, quantity);
  return (
    <>
      {waiting === undefined ? undefined : (
        <p>
          The base of the indicator as it was, the gear at station {waiting}: where that reads the same again, it goes
          on. Else begin again.
        </p>
      )}
      <p>{result === undefined ? check.how : <strong>{runoutWords(result, units)}</strong>}</p>
      <p className="quiet">
        {limit === undefined ? 'No limit is entered for it.' : `Limit ${limitWords(limit, units)}.`}
      </p>
    </>
  );
}

const shapes: Readonly<Record<RunoutResult['shape'], string>> = {
  eccentric: 'It comes once a turn: out of centre, or a wobble.',
  burr: 'One place stands out: look for a burr or dirt.',
  warp: 'It is warped in two lobes.',
  mixed: 'Several shapes lie over each other.',
  unknown: '',
};

/** Less than this hides in the last digit of any gauge. */
const leastTold_mm = 0.0005;

/** "0.062 mm ± 0.004 mm. It is warped in two lobes. Between the stations up to 0.010 mm can hide." */
export function runoutWords(result: RunoutResult, units: 'metric' | 'inch'): string {
  const shown = (value: number): string => showText(value, 'length', units);
  const doubt = isNone(result.U95_mm) || result.U95_mm === 0 ? '' : ` ± ${shown(result.U95_mm)}`;
  if (isNone(result.tir_mm)) return noRunoutSentence(result.tir_mm.none);
  const value = `${shown(result.tir_mm)}${doubt}`;
  const missed =
    isNone(result.missAtWorst_mm) || result.missAtWorst_mm < leastTold_mm
      ? ''
      : ` Between the stations up to ${shown(result.missAtWorst_mm)} can hide.`;
  const shape = shapes[result.shape] === '' ? '' : ` ${shapes[result.shape]}`;
  const flags = result.flags.length === 0 ? '' : ` ${flagSentences(result.flags)}`;
  return `${value}.${shape}${missed}${flags}`;
}
