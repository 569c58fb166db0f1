import { useEffect } from 'react';

/**
 * Keeps the screen on while something is measured: both hands are on gears and nobody touches a key. A browser takes its
 * lock back when the page is hidden, so it is asked for again; one that has none, or refuses, dims as it always did.
 */
export function useAwake(): void {
  useEffect(() => {
    let lock: WakeLockSentinel | undefined;
    let isOver = false;
    const hold = async (): Promise<void> => {
      if (document.visibilityState !== 'visible') return;
      const got = await askForLock();
      if (isOver) void got?.release();
      else lock = got;
    };
    const seen = (): void => void hold();
    seen();
    document.addEventListener('visibilitychange', seen);
    window.axlewright?.keepAwake(true);
    return () => {
      isOver = true;
      document.removeEventListener('visibilitychange', seen);
      window.axlewright?.keepAwake(false);
      void lock?.release();
    };
  }, []);
}

/** Typed as always there, but older browsers have none. */
async function askForLock(): Promise<WakeLockSentinel | undefined> {
  if (!('wakeLock' in navigator)) return undefined;
  try {
    return await navigator.wakeLock.request('screen');
  } catch {
    // Refused, by a low battery for instance: measuring goes on.
    return undefined;
  }
}
