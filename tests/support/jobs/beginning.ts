import { axleOptions } from '../../../src/renderer/screens/job/axle/options.ts';
import type { Limit } from '../../../src/shared/job/records/specSheet.ts';
import { quantityWords } from '../../../src/shared/presentation/words/limits.ts';
import type { Job } from './job.ts';
import type { Person } from './person.ts';

/** The door: what is on the stand, and who works on it. */
export async function startBuild(person: Person, title: string, technician: string): Promise<void> {
  const { page } = person;
  await person.type(page.getByLabel('What is on the stand'), title);
  const signed = page.getByLabel('Technician');
  if ((await signed.inputValue()) === '') await person.type(signed, technician);
  await person.next();
}

/** Teeth and sizes typed, the make-up chosen; what stands chosen already is left. */
export async function describeAxle(person: Person, { makeUp }: Job): Promise<void> {
  const { page } = person;
  await person.type(page.getByLabel('Pinion teeth'), String(makeUp.pinionTeeth));
  await person.type(page.getByLabel('Ring gear teeth'), String(makeUp.ringTeeth));
  if (makeUp.outerDiameter_mm !== undefined)
    await person.type(page.getByLabel('Ring gear diameter'), String(makeUp.outerDiameter_mm));
  for (const [field, options] of Object.entries(axleOptions)) {
    const chosen = options.find(({ value }) => value === makeUp[field as keyof typeof axleOptions]);
    const radio = page.getByRole('radio', { name: chosen?.words ?? '', exact: true });
    if (chosen === undefined || (await radio.isChecked())) continue;
    await person.press(page.locator('.choice__option', { hasText: chosen.words }));
  }
  await person.next();
}

/** The shop's sheet, copied and looked over; or every limit, its source once: the lines below take it over. */
export async function enterLimits(person: Person, { limits, sheetKnown }: Job): Promise<void> {
  const { page } = person;
  if (sheetKnown === true) {
    await person.press(page.locator('.shelf__sheet', { hasText: limits.name }).getByRole('button'));
    return person.next();
  }
  if ((await page.locator('.shelf').count()) > 0) await person.next();
  for (const [index, limit] of limits.limits.entries()) await enterLimit(person, limit, index === 0);
  await person.next();
}

async function enterLimit(person: Person, limit: Limit, first: boolean): Promise<void> {
  const { page } = person;
  const name = quantityWords[limit.quantity];
  const cell = (which: string) => page.getByLabel(`${name}, ${which}`);
  if (limit.min !== undefined) await person.type(cell('lower'), shortly(limit.min.value));
  if (limit.max !== undefined) await person.type(cell('upper'), shortly(limit.max.value));
  if (first) await person.type(cell('where it comes from'), 'Manual p. 4');
}

/** A number as a hurried hand types it: ".15". */
const shortly = (value: number): string => String(value).replace(/^0\./u, '.');
