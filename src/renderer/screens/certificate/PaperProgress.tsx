import { Button } from '../../parts/Button.tsx';
import type { Paper } from '../../stores/papers.ts';

/** How far a paper has come, and an end to it; nothing while none is being drawn. */
export const PaperProgress = ({ paper, words }: { readonly paper: Paper; readonly words: string }) =>
  paper.share === undefined ? undefined : (
    <p className="paperProgress">
      <progress value={paper.share} aria-label={words} />
      <Button look="quiet" onPress={paper.stop} more={words}>
        Stop
      </Button>
    </p>
  );
