import type { Build } from '../../../../shared/job/records/build.ts';
import { nextStep } from '../../../../shared/job/checks/readiness.ts';
import type { NextAction } from '../../../parts/Words.tsx';
import { go } from '../../../stores/route.ts';
import { nextWords } from '../../../words/next.ts';

/** What comes after a recorded check, as the one action. */
export function goOn(build: Build): NextAction {
  const next = nextWords(build, nextStep(build));
  return { words: next.words, run: () => go(next.route) };
}
