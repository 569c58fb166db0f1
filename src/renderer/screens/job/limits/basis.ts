import { type BacklashBasis, bearingStates, type TorqueBasis } from '../../../../shared/basics/recorded.ts';
import type { Option } from '../../../parts/Choice.tsx';

/** Bases by a key each, so that one list can offer them. */
const directions = { 'along-rotation': 'Along the turn', 'square-to-tooth': 'Square to the tooth' } as const;
const directionNames = ['along-rotation', 'square-to-tooth'] as const;

export const backlashBasisOptions: readonly Option<string>[] = directionNames.flatMap((direction) => [
  { value: `${direction} heel`, words: `${directions[direction]}, at the heel` },
  { value: `${direction} radius`, words: `${directions[direction]}, at a radius` },
]);

const torqueBases: readonly TorqueBasis[] = (['running', 'starting'] as const).flatMap((basis) =>
  (['out', 'in'] as const).flatMap((seal) => bearingStates.map((bearings) => ({ basis, seal, bearings }))),
);

export const torqueBasisOptions: readonly Option<string>[] = torqueBases.map((one) => ({
  value: basisKey(one),
  words: `${one.basis === 'running' ? 'Running' : 'Starting'}, seal ${one.seal}, ${one.bearings} bearings`,
}));

export function basisKey(basis: BacklashBasis | TorqueBasis): string {
  if ('direction' in basis) return `${basis.direction} ${basis.at === 'heel' ? 'heel' : 'radius'}`;
  return `${basis.basis} ${basis.seal} ${basis.bearings}`;
}

export const isRadius = (key: string): boolean => key.endsWith(' radius');

/** The backlash basis a key stands for; unknown keys never leave the list above. */
export const backlashBasis = (key: string, radius_mm: number): BacklashBasis => ({
  direction: key.startsWith('square') ? 'square-to-tooth' : 'along-rotation',
  at: isRadius(key) ? { radius_mm } : 'heel',
});

export const torqueBasis = (key: string): TorqueBasis | undefined => torqueBases.find((one) => basisKey(one) === key);
