import type { ShimPlace } from '../../../src/shared/axle/makeUp.ts';
import type { Job } from './job.ts';
import type { Person } from './person.ts';

/** Places as the screens call them. */
export const placeNames: Readonly<Record<ShimPlace, string>> = {
  'pinion-depth': 'Pinion depth',
  'pinion-preload': 'Pinion preload',
  'ring-side': 'Ring-gear side',
  'opposite-side': 'Opposite side',
};

/** A length as it is typed: millimetres to the hundredth, inches to the ten-thousandth, without zeros nobody writes. */
export const lengthIn = (units: Job['units'], value_mm: number): string =>
  String(units === 'metric' ? Math.round(value_mm * 1e3) / 1e3 : Math.round((value_mm / 25.4) * 1e4) / 1e4);

/** A fastener's torque as it is typed: newton metres, or pound-feet. */
export const fastenerIn = (units: Job['units'], value_Nm: number): string =>
  String(Math.round(units === 'metric' ? value_Nm : value_Nm / 1.3558179));

/** The tool and its resolution, where the screen does not know them yet. */
export async function nameTool(person: Person, kind: 'length' | 'fastener', units: Job['units']): Promise<void> {
  const { page } = person;
  const tool = page.getByRole('textbox', { name: 'Read off' });
  if ((await tool.count()) === 0 || (await tool.inputValue()) !== '') return;
  await person.type(tool, kind === 'length' ? 'Mic' : 'Wrench');
  const step = page.getByLabel('Its resolution', { exact: true });
  const finest = kind === 'length' ? { metric: '.01', inch: '.0005' } : { metric: '1', inch: '1' };
  if ((await step.inputValue()) === '') await person.type(step, finest[units]);
}
