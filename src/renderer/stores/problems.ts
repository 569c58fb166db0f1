import { create } from 'zustand';
import type { Problem } from '../../shared/basics/result.ts';

/** The last thing that went wrong and has not been put aside; one sentence at a time is what a person can act on. */
export const useProblem = create<{ readonly problem: Problem | undefined }>()(() => ({ problem: undefined }));

export const showProblem = (problem: Problem): void => useProblem.setState({ problem });
export const putProblemAside = (): void => useProblem.setState({ problem: undefined });
