import { Button } from '../../../parts/Button.tsx';
import { type PlaceDraft, type FlankSide, type SideDraft, sides } from './draft.ts';
import { freshMark } from './shape.ts';

interface FlankControlsProps {
  readonly draft: PlaceDraft;
  readonly onChange: (side: FlankSide, to: SideDraft) => void;
  /** Reads the mark off a photo instead. */
  readonly onPhoto: (side: FlankSide) => void;
}

/** Below each flank: to draw its mark, to read it off a photo, to rub it out, or to say that there is none. */
export const FlankControls = (props: FlankControlsProps) => (
  <div className="flank-controls">
    {sides.map((side) => (
      <OneFlank key={side} side={side} {...props} />
    ))}
  </div>
);

function OneFlank({ side, draft, onChange, onPhoto }: FlankControlsProps & { readonly side: FlankSide }) {
  const mark = draft[side];
  const name = side === 'drive' ? 'Drive' : 'Coast';
  if (mark === undefined || mark === 'no-mark') {
    return (
      <div className="flank-controls__one" role="group" aria-label={`${name} flank`}>
        <Button onPress={() => onChange(side, freshMark({ heel: 0, crown: 0 }))}>
          Draw<span className="flank-controls__which"> the {side} mark</span>
        </Button>
        <Button onPress={() => onPhoto(side)} more={`of the ${side} flank`}>
          From a photo
        </Button>
        {mark === 'no-mark' ? (
          <span className="flank-controls__none">No mark on this flank</span>
        ) : (
          <Button look="quiet" onPress={() => onChange(side, 'no-mark')}>
            There is none
          </Button>
        )}
      </div>
    );
  }
  return (
    <div className="flank-controls__one" role="group" aria-label={`The ${side} mark`}>
      <Button look="quiet" more={`the ${side} mark`} onPress={() => onChange(side, undefined)}>
        Rub out
      </Button>
      <Button look="quiet" more={`of the ${side} flank`} onPress={() => onPhoto(side)}>
        Photo
      </Button>
    </div>
  );
}
