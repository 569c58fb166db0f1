import { assemblyName } from '../../../../shared/job/records/build.ts';
import { swapNotes } from '../../../../shared/job/swap/swapWords.ts';
import { Button } from '../../../parts/Button.tsx';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { useDrawer } from '../../../stores/drawer.ts';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import type { CardProps } from './cardProps.ts';
import { type CardStanding, standingTitle } from './cardStanding.ts';
import { openTrial } from './openTrial.ts';
import { useTurned } from './turned.ts';

interface SwapWordsProps extends CardProps {
  readonly standing: CardStanding;
  /** Writes the measured packs down. */
  readonly keep: () => void;
}

/** How the card stands and what comes next. */
export function SwapWords({ build, swap, standing, keep }: SwapWordsProps) {
  const units = useSession((session) => session.units);
  const drawer = useDrawer((seen) => seen.drawer);
  const { opened, kept, fault } = standing;
  const right = fault === undefined;
  const turned = useTurned(swap);
  const open = (): void => void openTrial(build, swap, { drawer, turned });
  return (
    <Words
      title={standingTitle(standing)}
      next={nextOf(build.id, standing, { open, keep })}
      others={
        kept && !right && opened === undefined ? (
          <Button onPress={open}>Put it together all the same</Button>
        ) : undefined
      }
    >
      {swapNotes(build.makeUp, swap, units).map((note) => (
        <p key={note}>{note}</p>
      ))}
      <p>
        {right
          ? 'Squeeze the pack flat and measure it as one. A wrong stack costs nothing here and an hour later.'
          : 'Build the stack again and measure it before anything goes together.'}
      </p>
    </Words>
  );
}

interface Ways {
  readonly open: () => void;
  readonly keep: () => void;
}

function nextOf(build: string, { opened, kept, fault }: CardStanding, { open, keep }: Ways): NextAction {
  if (opened !== undefined)
    return {
      words: `Go to ${assemblyName(opened).toLowerCase()}`,
      run: () => go({ at: 'build', build, assembly: opened.id }),
    };
  if (kept && fault === undefined) return { words: 'Open the next trial', run: open };
  return { words: 'Keep the measured packs', run: keep, disabled: kept };
}
