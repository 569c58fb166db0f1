import type { Build } from '../../../../shared/job/records/build.ts';
import { isDescribed } from '../../../../shared/job/checks/readiness.ts';
import { timeWords } from '../../../words/days.ts';
import { useSummary } from '../../../stores/builds.ts';

/** A build in which nothing has been read yet: what there is, and the way ahead. */
export function BuildBeginning({ build }: { readonly build: Build }) {
  const earlier = useSummary(build.comebackOf);
  return (
    <>
      <p>
        Started {timeWords(build.startedAt)} by {build.technician}.
        {build.comebackOf === undefined ? '' : ` A comeback of ${earlier?.title ?? 'an earlier build'}.`}
      </p>
      <ol className="beginning">
        <li className={isDescribed(build) ? 'beginning__done' : ''}>
          Describe the axle: teeth, flanks, shims, preload.
        </li>
        <li className={build.specSheet === undefined ? '' : 'beginning__done'}>
          Enter the limits, each with its unit and where it comes from.
        </li>
        <li>As found: backlash, runout, turning torque, the mark the gears wear, every shim by its place.</li>
        <li>Trials on set-up bearings, as many as it takes, until the mark is right.</li>
        <li>The final assembly with its preloads, the last mark, and the certificate.</li>
      </ol>
    </>
  );
}
