import { useMemo } from 'react';
import { boltCircle } from '../../../../shared/presentation/drawing/boltCircle.ts';
import { Drawing } from '../../../instruments/Drawing.tsx';
import './looked.css';

interface BoltCircleProps {
  readonly bolts: string;
  /** What to do where their number is not there yet. */
  readonly missing: string;
}

/** The cross sequence for as many bolts as were counted; nothing while nobody has counted them. */
export function BoltCircle({ bolts, missing }: BoltCircleProps) {
  const count = Number(bolts);
  const drawable = Number.isInteger(count) && count >= 4 && count <= 40;
  const scene = useMemo(() => (drawable ? boltCircle(count) : undefined), [drawable, count]);
  return (
    <div className="looked__picture">
      {scene === undefined ? <p className="quiet">{missing}</p> : <Drawing scene={scene} />}
    </div>
  );
}
