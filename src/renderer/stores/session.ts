import { z } from 'zod';
import { create } from 'zustand';
import { pageSizes } from '../../shared/contract/certificate.ts';

/** What belongs to the person at this screen and to nothing that is recorded. */
const sessionSchema = z.object({
  technician: z.string().max(200).catch(''),
  units: z.enum(['metric', 'inch']).catch('metric'),
  theme: z.enum(['system', 'light', 'dark']).catch('system'),
  sound: z.boolean().catch(true),
  pictureCues: z.boolean().catch(true),
  spoken: z.boolean().catch(false),
  /** KeyboardEvent.code of the foot pedal; Space and Page Down mean next besides. */
  pedalKey: z.string().max(40).catch('PageDown'),
  page: z.enum(pageSizes).catch('a4'),
  /** At which side of the picture the toe lies: turned to how the technician stands. */
  toeAt: z.enum(['left', 'right']).catch('left'),
});
export type Session = z.infer<typeof sessionSchema>;

const place = 'axlewright-session';

function remembered(): Session {
  try {
    return sessionSchema.parse(JSON.parse(localStorage.getItem(place) ?? '{}'));
  } catch {
    // A page without storage, or something else in it: the session starts with the usual settings.
    return sessionSchema.parse({});
  }
}

export const useSession = create<Session>()(remembered);

/** Changes one or more settings and remembers them on this machine. */
export function changeSession(change: Partial<Session>): void {
  useSession.setState(change);
  try {
    localStorage.setItem(place, JSON.stringify(useSession.getState()));
  } catch {
    // Without storage the settings last as long as the window.
  }
}

export const switchUnits = (): void =>
  changeSession({ units: useSession.getState().units === 'metric' ? 'inch' : 'metric' });
