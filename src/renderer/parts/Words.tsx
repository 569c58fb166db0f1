import type { ReactNode } from 'react';
import { useCommand } from '../commands/useCommand.ts';
import { pedalNext } from '../commands/registry.ts';
import { useKeptSentence } from '../stores/kept.ts';
import { useSession } from '../stores/session.ts';
import { Button } from './Button.tsx';
import { HandSentence } from './HandButton.tsx';
import { useScrolls } from './scrolls.ts';
import './words.css';

export interface NextAction {
  readonly words: string;
  readonly run: () => void;
  readonly disabled?: boolean;
}

interface WordsProps {
  readonly title: string;
  readonly children?: ReactNode;
  /** The one action that stands out; the pedal does it too. */
  readonly next?: NextAction | undefined;
  /** What else can be done here. */
  readonly others?: ReactNode;
}

/** Beside the stage, in words: what it means and what comes next. */
export function Words({ title, children, next, others }: WordsProps) {
  const [saying, scrolls] = useScrolls();
  const kept = useKeptSentence();
  const pedal = useSession((session) => session.pedalKey);
  useCommand(pedalNext, next?.words ?? '', next === undefined || next.disabled === true ? undefined : next.run);
  return (
    <section className="words" aria-label="What it means and what comes next">
      <div className="words__saying" aria-live="polite" ref={saying} {...(scrolls ? { tabIndex: 0 } : {})}>
        {kept === undefined ? undefined : <p className="words__kept digits">{kept}</p>}
        <h2 className="words__title">{title}</h2>
        {children}
        <HandSentence />
      </div>
      <div className="words__doing">
        {next === undefined ? undefined : (
          <Button look="next" onPress={next.run} disabled={next.disabled ?? false} keyHint={keyWords(pedal)}>
            {next.words}
          </Button>
        )}
        {others === undefined ? undefined : <div className="words__others">{others}</div>}
      </div>
    </section>
  );
}

/** A KeyboardEvent.code as it is written on the key. */
export const keyWords = (code: string): string =>
  ({ PageDown: 'PgDn', PageUp: 'PgUp' })[code] ?? code.replace(/^(Key|Digit)/u, '');
