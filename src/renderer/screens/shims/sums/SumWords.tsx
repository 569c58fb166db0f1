import type { Problem } from '../../../../shared/basics/result.ts';
import { Words } from '../../../parts/Words.tsx';
import { writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';
import type { SumProps } from './sumProps.ts';

interface SumWordsProps extends SumProps {
  /** What the sum comes to in one sentence; nothing while something is still to be typed. */
  readonly answer: string | undefined;
  readonly problem?: Problem | undefined;
  /** Under the answer: what it rests on. */
  readonly why: string;
  /** How the note in the notebook begins. */
  readonly about: string;
  /** One more thing that may be done with the answer. */
  readonly also?: React.ReactNode;
}

/** The answer of a sum in words, and the way on: into the notes, or back to the shims. */
export function SumWords({ build, assembly, answer, problem, why, about, also }: SumWordsProps) {
  const shims = (): void => go({ at: 'check', build: build.id, assembly, check: 'shims' });
  const note = async (words: string): Promise<void> => {
    if (await writeDeed({ kind: 'noted', topic: 'note', text: `${about} ${words}` })) shims();
  };
  const next =
    answer === undefined || problem !== undefined
      ? { words: 'Back to the shims', run: shims }
      : { words: 'Write it in the notes', run: () => void note(answer) };
  return (
    <Words title={problem?.sentence ?? answer ?? 'Type what was read'} next={next} others={also}>
      <p>{problem?.remedy ?? why}</p>
    </Words>
  );
}
