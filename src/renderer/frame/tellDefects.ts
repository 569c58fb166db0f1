import { showProblem } from '../stores/problems.ts';
import { faultWords } from './stopReport.ts';

/** What a person can do about a fault of the program itself. */
const defect = (error: unknown) => ({
  kind: 'defect',
  sentence: `Something went wrong in this window that should not: ${faultWords(error)}.`,
  remedy: 'What was recorded is kept. If the last step is not there, do it once more.',
});

/**
 * The outermost catch of the page: a fault outside of drawing (a key, a message, a promise nobody waits for) is told
 * and ends nothing. The browser keeps its own record of it.
 */
export function tellDefects(page: Window): void {
  page.addEventListener('error', ({ error }: ErrorEvent) => {
    // Without an error it is the browser's own remark, as on boxes that change their size while they are measured.
    if (error instanceof Error) showProblem(defect(error));
  });
  page.addEventListener('unhandledrejection', ({ reason }) => showProblem(defect(reason)));
}
