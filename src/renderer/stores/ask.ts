import type { Answer, Ask, QuestionName } from '../../shared/contract/contract.ts';
import type { Problem } from '../../shared/basics/result.ts';
import { theBench } from './client.ts';
import { showProblem } from './problems.ts';

/**
 * Asks the bench and gives the answer, or undefined after the problem has been shown.
 * @param onProblem takes the problem instead, for forms that name the wrong field themselves.
 */
export async function ask<Name extends QuestionName>(
  name: Name,
  what: Ask<Name>,
  onProblem: (problem: Problem) => void = showProblem,
): Promise<Answer<Name> | undefined> {
  const result = await theBench().ask(name, what);
  if (result.ok) return result.value;
  onProblem(result.problem);
  return undefined;
}
