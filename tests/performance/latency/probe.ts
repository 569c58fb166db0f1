/** What the page noticed: every text written where a gauge's digits stand, each frame, and the scripts' time in it. */
export interface Noticed {
  /** Gauge, text, and the wall clock in milliseconds (to a tenth: a browser gives no finer one). */
  readonly texts: (readonly [string, string, number])[];
  readonly frames_ms: number[];
  readonly work_ms: number[];
}

/**
 * Runs in the page before its own scripts: adds up, for each frame, the time spent in whatever the page's scripts are
 * called by (messages, frames, timers). Style, layout and paint are the browser's and not in it.
 */
export function timeScripts(): void {
  const noticed: Noticed = { texts: [], frames_ms: [], work_ms: [] };
  Object.assign(globalThis, { noticed });
  let working = 0;
  let depth = 0;
  const timed = <Call extends (...given: never[]) => unknown>(call: Call): Call =>
    function timedCall(this: unknown, ...given: never[]): unknown {
      const began = performance.now();
      depth += 1;
      try {
        return call.apply(this, given);
      } finally {
        depth -= 1;
        if (depth === 0) working += performance.now() - began;
      }
    } as Call;
  const frame = requestAnimationFrame.bind(globalThis);
  globalThis.requestAnimationFrame = (call) => frame(timed(call));
  const later = setTimeout.bind(globalThis);
  globalThis.setTimeout = ((call: () => void, wait?: number) => later(timed(call), wait)) as typeof setTimeout;
  const again = setInterval.bind(globalThis);
  globalThis.setInterval = ((call: () => void, wait?: number) => again(timed(call), wait)) as typeof setInterval;
  // oxlint-disable-next-line typescript/unbound-method -- called below on the socket it is asked of
  const listen = WebSocket.prototype.addEventListener;
  WebSocket.prototype.addEventListener = function addTimed(this: WebSocket, kind: string, call: EventListener): void {
    listen.call(this, kind, timed(call));
  } as typeof listen;
  // React's own scheduler calls itself through a message channel.
  const port = Object.getOwnPropertyDescriptor(MessagePort.prototype, 'onmessage');
  Object.defineProperty(MessagePort.prototype, 'onmessage', {
    ...port,
    set(this: MessagePort, call: (event: MessageEvent) => void) {
      port?.set?.call(this, timed(call));
    },
  });
  let before = performance.now();
  const count = (at: number): void => {
    frame(count);
    noticed.frames_ms.push(at - before);
    noticed.work_ms.push(working);
    working = 0;
    before = at;
  };
  frame(count);
}

/** Runs in the page once the digits are there: notes the time of each text written, as an observer is told of it. */
export function watchTexts(): void {
  const { noticed } = globalThis as unknown as { readonly noticed: Noticed };
  for (const digits of document.querySelectorAll('.strip-gauge .live__digits')) {
    const gauge = digits.closest('[data-gauge]')?.getAttribute('data-gauge') ?? '';
    new MutationObserver(() => {
      noticed.texts.push([gauge, digits.textContent ?? '', performance.timeOrigin + performance.now()]);
    }).observe(digits, { childList: true, characterData: true, subtree: true });
  }
  noticed.frames_ms.length = 0;
  noticed.work_ms.length = 0;
}

export const noticedSoFar = (): Noticed => (globalThis as unknown as { readonly noticed: Noticed }).noticed;
