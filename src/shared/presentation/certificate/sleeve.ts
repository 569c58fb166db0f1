import { showText, type UnitSystem } from '../../basics/show.ts';
import { insideOf } from '../../basics/recorded.ts';
import { isNone } from '../../basics/result.ts';
import { readNotebook } from '../../job/records/build.ts';
import type { SleeveStepTaken } from '../../job/records/sleeve.ts';
import type { CertificateAssembly, CertificateContent } from './content.ts';
import { type Block, heading, list } from './page.ts';

/** The crush sleeves of an assembly with the steps of the nut on each, the wasted ones too. */
export function sleeveBlocks(
  content: CertificateContent,
  { id }: CertificateAssembly,
  system: UnitSystem,
): readonly Block[] {
  const { assemblies } = readNotebook(content.build.id, content.notebook);
  const sleeves = assemblies.find((assembly) => assembly.id === id)?.sleeves ?? [];
  const stepped = sleeves.filter((sleeve, n) => sleeve.length > 0 || n < sleeves.length - 1);
  if (stepped.length === 0) return [];
  const lines = sleeves.map((sleeve, n) => sleeveLine(sleeve, n + 1, n < sleeves.length - 1, system));
  return [heading(3, 'Crush sleeve, step by step'), ...list(lines)];
}

/** "Sleeve 1, crushed too far and replaced: 0.60, 1.20, 3.90 N·m; nut turned 45° in all, at most 310 N·m." */
function sleeveLine(sleeve: readonly SleeveStepTaken[], number: number, wasted: boolean, system: UnitSystem): string {
  const name = `Sleeve ${number}${wasted ? ', crushed too far and replaced' : ''}`;
  if (sleeve.length === 0) return `${name}: no step was read on it.`;
  const torques = sleeve.map((step) => torqueOf(step, system)).join(', ');
  const turned = sleeve.reduce((sum, { nutTurn_deg }) => sum + (nutTurn_deg ?? 0), 0);
  const most = Math.max(0, ...sleeve.map(({ nutTorque }) => (nutTorque === undefined ? 0 : insideOf(nutTorque))));
  const nut = [
    ...(turned === 0 ? [] : [`nut turned ${Math.round(turned)}° in all`]),
    ...(most === 0 ? [] : [`at most ${showText(most, 'torque', system)} on it`]),
  ];
  return `${name}: ${torques}${nut.length === 0 ? '' : `; ${nut.join(', ')}`}.`;
}

function torqueOf({ result }: SleeveStepTaken, system: UnitSystem): string {
  const value = result.basis.basis === 'starting' ? result.breakaway_Nm : result.running_Nm;
  return isNone(value) ? 'not read' : showText(value, 'torque', system);
}
