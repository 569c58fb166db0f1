import { useMemo } from 'react';
import type { Build } from '../../../../shared/job/records/build.ts';
import type { BacklashBasis } from '../../../../shared/basics/recorded.ts';
import { convertedLimit } from '../../../../shared/job/gear/convertedLimit.ts';
import { isDescribed } from '../../../../shared/job/checks/readiness.ts';
import { convertedWords } from '../../../../shared/presentation/words/converted.ts';
import { useSession } from '../../../stores/session.ts';

/** Where the limit is felt another way than the reading: what it comes to, as a conversion that does not judge. */
export function ConvertedLimits({ build, basis }: { readonly build: Build; readonly basis: BacklashBasis }) {
  const units = useSession((session) => session.units);
  const told = useMemo(() => {
    const limits = build.specSheet?.limits.filter(({ quantity }) => quantity === 'backlash') ?? [];
    return isDescribed(build) ? limits.flatMap((limit) => convertedLimit(limit, basis, build.makeUp) ?? []) : [];
  }, [build, basis]);
  return told.map((one) => (
    <p key={JSON.stringify(one.limit)} className="quiet">
      {convertedWords(one, basis, units)}
    </p>
  ));
}
