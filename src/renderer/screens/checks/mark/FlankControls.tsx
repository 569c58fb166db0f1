import { edgeNames } from '../../../../shared/axle/mark/mark.ts';
import { useSession } from '../../../stores/session.ts';
import { Button } from '../../../parts/Button.tsx';
import { type PlaceDraft, type FlankSide, type SideDraft, sides } from './draft.ts';
import { freshMark, recalled } from './shape.ts';

interface FlankControlsProps {
  readonly draft: PlaceDraft;
  readonly onChange: (side: FlankSide, to: SideDraft) => void;
  /** Reads the mark off a photo instead. */
  readonly onPhoto: (side: FlankSide) => void;
}

/** Below each flank: how the mark meets its four edges, or that there is none. */
export const FlankControls = (props: FlankControlsProps) => (
  <div className="flank-controls">
    {sides.map((side) => (
      <OneFlank key={side} side={side} {...props} />
    ))}
  </div>
);

function OneFlank({ side, draft, onChange, onPhoto }: FlankControlsProps & { readonly side: FlankSide }) {
  const toeAt = useSession((session) => session.toeAt);
  const mark = draft[side];
  const name = side === 'drive' ? 'Drive' : 'Coast';
  if (mark === undefined || mark === 'no-mark') {
    return (
      <div className="flank-controls__one" role="group" aria-label={`${name} flank`}>
        <Button onPress={() => onChange(side, freshMark({ heel: 0, crown: 0 }))}>Draw the {side} mark</Button>
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
  const order = toeAt === 'left' ? edgeNames : (['heel', 'toe', 'crown', 'root'] as const);
  return (
    <div className="flank-controls__one" role="group" aria-label={`Edges of the ${side} mark`}>
      <div className="flank-controls__edges">
        {order.map((edge) => (
          <button
            key={edge}
            type="button"
            className={`edge edge--${mark.edges[edge]}`}
            onClick={() => onChange(side, recalled(mark, edge))}
          >
            <span className="edge__name">
              <span className="unseen">{name} mark, </span>
              {edge}
            </span>
            <span className="edge__contact">
              {mark.edges[edge]}
              <span className="unseen">, change</span>
            </span>
          </button>
        ))}
      </div>
      <Button look="quiet" more={`the ${side} mark`} onPress={() => onChange(side, undefined)}>
        Rub out
      </Button>
      <Button look="quiet" more={`of the ${side} flank`} onPress={() => onPhoto(side)}>
        Photo
      </Button>
    </div>
  );
}
