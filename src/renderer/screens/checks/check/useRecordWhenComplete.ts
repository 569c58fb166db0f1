import { useEffect, useLayoutEffect, useRef } from 'react';
import { useRun } from '../../../live/run.ts';
import type { CheckProps } from './checkProps.ts';
import { record } from './record.ts';

/** When everything wanted has its number there is nothing left to decide, so it is recorded by itself; undo is at hand. */
export function useRecordWhenComplete(props: CheckProps): void {
  const latest = useRef(props);
  useLayoutEffect(() => {
    latest.current = props;
  });
  const complete = useRun(({ run }) => run?.complete === true);
  useEffect(() => {
    if (complete) void record(latest.current);
  }, [complete]);
}
