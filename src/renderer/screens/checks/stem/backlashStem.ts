import { stemMisreads } from '../../../../shared/job/captures/stem.ts';
import type { Build, Measurement } from '../../../../shared/job/records/build.ts';
import type { BacklashBasis } from '../../../../shared/basics/recorded.ts';
import type { StemSaid, CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import { basisWords } from '../../../../shared/job/checks/judge.ts';
import type { Option } from '../../../parts/Choice.tsx';

/** The stem as the basis wants it: nothing of it is recorded, because nothing of it changes a reading. */
export const stemAsWanted: StemSaid = { tip: 'rides-flank', off_deg: 0 };

export const directions = [
  { value: 'along-rotation', words: 'Along the turn' },
  { value: 'square-to-tooth', words: 'Square to the tooth' },
] as const satisfies readonly Option<BacklashBasis['direction']>[];

export const places = [
  { value: 'heel', words: 'At the heel' },
  { value: 'radius', words: 'At a radius' },
] as const;

/** How backlash was taken last time in this build; it seldom changes from one trial to the next. */
export function lastBacklashSettings(build: Build): CaptureSettingsOf<'backlash'> | undefined {
  const taken = build.assemblies.flatMap(({ measurements }) => measurements);
  return taken.flatMap((one) => settingsOf(one) ?? []).at(-1);
}

/** A backlash that was typed has its stations and how it was felt, and nothing else that a gauge would be told. */
function settingsOf({ how, result }: Measurement): CaptureSettingsOf<'backlash'> | undefined {
  if (how.kind === 'streamed') return how.settings.kind === 'backlash' ? how.settings : undefined;
  return result.kind === 'backlash'
    ? { kind: 'backlash', basis: result.basis, stations: result.stations.length, nextBy: 'itself' }
    : undefined;
}

/** The settings with the stem laid in, or left out again where it says nothing. */
export function withStem(
  settings: CaptureSettingsOf<'backlash'>,
  stem: StemSaid,
  basis: BacklashBasis,
): CaptureSettingsOf<'backlash'> {
  const { stem: _, ...rest } = settings;
  return { ...rest, basis, ...(saysNothing(stem) ? {} : { stem }) };
}

const saysNothing = ({ tip, off_deg, offWithin_deg, radiusWithin_mm }: StemSaid): boolean =>
  tip === 'rides-flank' && off_deg === 0 && offWithin_deg === undefined && radiusWithin_mm === undefined;

/** "Along the turn at the heel, 10° off": for the button. */
export function stemBrief({ basis, stem = stemAsWanted }: CaptureSettingsOf<'backlash'>): string {
  const words = basisWords(basis);
  const off = stem.off_deg === 0 ? '' : `, ${stem.off_deg}° off`;
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}${off}`;
}

/** What the way it stands does to the readings. */
export function stemSentence({ basis, stem = stemAsWanted }: CaptureSettingsOf<'backlash'>): string {
  const misread = stemMisreads(basis, stem);
  if (misread === undefined) {
    return stem.off_deg === 0 && stem.offWithin_deg === undefined
      ? 'It stands aslant to the tooth by design and reads truly.'
      : 'Standing off, it reads high or low by the way it leans. Nothing is corrected; the doubt grows.';
  }
  if (Math.abs(misread) < 5e-4) return 'As it stands it reads truly.';
  const size = `${(100 * Math.abs(misread)).toFixed(1)} %`;
  return `It reads ${size} ${misread > 0 ? 'high' : 'low'} as it stands; every number is freed from that.`;
}
