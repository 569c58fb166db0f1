import { type Edge, edgeNames, type Mark } from '../../../../shared/axle/mark/mark.ts';
import { type FlankGeometry, type FlankPlace, pointAt } from '../../../../shared/presentation/drawing/flankShape.ts';
import type { FlankSide } from './draft.ts';
import { recalled } from './shape.ts';

interface EdgeControlsProps {
  readonly side: FlankSide;
  readonly mark: Mark;
  readonly geometry: FlankGeometry;
  readonly onChange: (mark: Mark) => void;
}

/** What the controls take up above and below a flank, in pixels: their height and the space to the edge. */
export const controlRoom = 54;

/** The corner of the flank each control stands at: none lies where the handles of the mark stand out. */
const standsAt: Readonly<Record<Edge, FlankPlace>> = {
  crown: { heel: 0.5, crown: 0.6 },
  root: { heel: 0, crown: -0.6 },
  toe: { heel: -0.5, crown: -0.6 },
  heel: { heel: 0.5, crown: -0.6 },
};

/** How the mark meets each edge, on the edge itself: one touch goes on to the next. */
export const EdgeControls = ({ side, mark, geometry, onChange }: EdgeControlsProps) => (
  <div role="group" aria-label={`Edges of the ${side} mark`}>
    {edgeNames.map((edge) => {
      const at = pointAt(geometry, standsAt[edge]);
      const from = edge === 'root' ? 'middle' : at.x < geometry.centre.x ? 'left' : 'right';
      return (
        <button
          key={edge}
          type="button"
          className={`edge edge--${mark.edges[edge]} edge--${from} edge--${edge === 'crown' ? 'above' : 'below'}`}
          style={{ left: at.x, top: at.y }}
          onClick={() => onChange(recalled(mark, edge))}
        >
          <span className="edge__name">
            <span className="unseen">{side === 'drive' ? 'Drive' : 'Coast'} mark, </span>
            {edge}
          </span>
          <span className="edge__contact">
            {mark.edges[edge]}
            <span className="unseen">, change</span>
          </span>
        </button>
      );
    })}
  </div>
);
