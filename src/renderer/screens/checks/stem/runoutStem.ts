import type { Build } from '../../../../shared/job/records/build.ts';
import type { CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import { isNone, type OrNone } from '../../../../shared/basics/result.ts';
import type { CheckId } from '../../../../shared/job/records/checkIds.ts';

/** Where the stem stood for a runout, as far as it was asked and said. */
export type RunoutStemSaid = Pick<CaptureSettingsOf<'runout'>, 'fromMesh_deg' | 'radius_mm'>;

/** The part of the settings that says where the stem stands, as far as anything was said. */
export const stemSaid = ({ fromMesh_deg, radius_mm }: RunoutStemSaid): RunoutStemSaid => ({
  ...(fromMesh_deg === undefined ? {} : { fromMesh_deg }),
  ...(radius_mm === undefined ? {} : { radius_mm }),
});

/**
 * What was said last time in this build, so that it is asked once. The place belongs to the stand and holds for flange
 * and gear; the radius only for the same surface.
 */
export function lastRunoutStem(build: Build, check: CheckId): RunoutStemSaid {
  const taken = runoutsOf(build);
  return stemSaid({
    fromMesh_deg: taken.findLast(({ settings }) => settings.fromMesh_deg !== undefined)?.settings.fromMesh_deg,
    radius_mm: taken.findLast(({ of }) => of === check)?.settings.radius_mm,
  });
}

/** How runout was taken last in this build, at stations or in one turn, if it was. */
export function lastRunoutWay(build: Build): CaptureSettingsOf<'runout'> | undefined {
  const last = runoutsOf(build).at(-1)?.settings;
  if (last === undefined) return undefined;
  const { kind, mode, stations } = last;
  return { kind, mode, ...(stations === undefined ? {} : { stations }) };
}

const runoutsOf = (build: Build) =>
  build.assemblies.flatMap(({ measurements }) =>
    measurements.flatMap(({ check: of, how }) =>
      how.kind === 'streamed' && how.settings.kind === 'runout' ? [{ of, settings: how.settings }] : [],
    ),
  );

/** How it stands now, for the button. */
export function fromMeshWords(fromMesh_deg: OrNone<number> | undefined): string {
  if (fromMesh_deg === undefined) return 'Where does the stem stand?';
  return isNone(fromMesh_deg) ? 'Stem’s place not known' : `Stem ${fromMesh_deg}° from the mesh`;
}
