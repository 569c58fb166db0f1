import { ask } from '../../../stores/ask.ts';

/** The technician's word goes into the journal like a reading, so that the bench hears it in the same place. */
export const pressPedal = async (gauge: string, pedal: 'next' | 'again'): Promise<void> =>
  void (await ask('gauges.press', { gauge, pedal }));
