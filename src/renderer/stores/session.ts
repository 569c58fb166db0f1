import { create } from 'zustand';
import type { BenchClient } from '../../shared/contract/contract.ts';
import {
  mostTechnicians,
  type SettingName,
  type Settings,
  type SomeSettings,
  usualSettings,
} from '../../shared/contract/settings.ts';
import { earlierSettings, forgetEarlierSettings } from './earlierSettings.ts';
import { theBench } from './client.ts';
import { showProblem } from './problems.ts';

/** The settings of the bench as this screen has them: what was set, and what is usual for the rest. */
export type Session = Settings;
export const useSession = create<Session>()(() => usualSettings);

/** Changed here and not yet taken by the bench; what the bench tells of them meanwhile is older. */
let unsent: SomeSettings = {};
let underWay: SomeSettings | undefined;

/** Changes one or more settings: here at once, on the bench and on every other screen as soon as it takes them. */
export function changeSession(change: Partial<Session>): void {
  useSession.setState(change);
  unsent = { ...unsent, ...change };
  void send();
}

/** One change under way at a time, so that a name being typed is not written down letter by letter out of order. */
async function send(): Promise<void> {
  if (underWay !== undefined || Object.keys(unsent).length === 0) return;
  underWay = unsent;
  unsent = {};
  const result = await theBench().ask('settings.change', { change: underWay });
  // Out of reach: it is sent when the bench is back. Refused: it is told, and what the bench has stays.
  const gone = !result.ok && result.problem.kind === 'bench-gone';
  if (gone) unsent = { ...underWay, ...unsent };
  else if (!result.ok) showProblem(result.problem);
  underWay = undefined;
  if (!gone) await send();
}

function lay(told: SomeSettings): void {
  const own = new Set(Object.keys({ ...underWay, ...unsent }));
  useSession.setState(Object.fromEntries(Object.entries(told).filter(([name]) => !own.has(name))));
}

/** Takes over what the bench has, and gives it what this page kept by itself in earlier versions. */
export async function loadSettings(): Promise<void> {
  const read = await theBench().ask('settings.read', {});
  if (!read.ok) return;
  lay(read.value);
  const kept = earlierSettings();
  const missing = Object.entries(kept).filter(([name]) => read.value[name as SettingName] === undefined);
  if (missing.length > 0) changeSession(Object.fromEntries(missing));
  forgetEarlierSettings();
  await send();
}

/** A setting was changed on another screen. */
export const followSettings = (client: BenchClient): (() => void) => client.hear('settings-changed', lay);

/** Somebody is at the stand from now on, and offered by name the next time. */
export function workAs(name: string): void {
  const technician = name.trim();
  if (technician === '') return;
  const others = useSession.getState().technicians.filter((one) => one !== technician);
  changeSession({ technician, technicians: [technician, ...others].slice(0, mostTechnicians) });
}

export const switchUnits = (): void =>
  changeSession({ units: useSession.getState().units === 'metric' ? 'inch' : 'metric' });
