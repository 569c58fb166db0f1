import { useMemo } from 'react';
import type { MakeUp } from '../../shared/axle/makeUp.ts';
import { seenIn } from '../../shared/job/checks/marksSeen.ts';
import { type Assembly, latest } from '../../shared/job/records/build.ts';
import { FlanksPicture, shown } from './FlanksPicture.tsx';

/** Both flanks of an assembly with the mark as it was read at its first place; nothing where none was read. */
export function MarkPicture({ makeUp, assembly }: { readonly makeUp: MakeUp; readonly assembly: Assembly }) {
  const result = latest(assembly, 'mark')?.result;
  const [drive, coast] = useMemo(() => {
    const seen = result?.kind === 'mark' ? seenIn(result)[0] : undefined;
    return seen === undefined ? [] : [shown(seen.drive, undefined), shown(seen.coast, undefined)];
  }, [result]);
  if (drive === undefined || coast === undefined) return undefined;
  return <FlanksPicture makeUp={makeUp} drive={drive} coast={coast} />;
}
