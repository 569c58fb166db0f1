import { Label, Slider, SliderOutput, SliderThumb, SliderTrack } from 'react-aria-components';
import { Button } from '../../../parts/Button.tsx';
import './mover.css';

interface MoverProps {
  readonly name: string;
  /** Words for the two ways: at the left and at the right of the track. */
  readonly ways: readonly [string, string];
  /** From where the trial stood (mm). */
  readonly value: number;
  readonly step: number;
  readonly reach: number;
  /** How a movement reads: "0.100 mm out". */
  readonly says: (value: number) => string;
  readonly onChange: (value: number) => void;
}

/** Moves the pinion or the ring gear by dragging, by the arrow keys, or by a step at each press. */
export function Mover({ name, ways, value, step, reach, says, onChange }: MoverProps) {
  const steps = Math.round(reach / step);
  const at = (count: number): number => Math.round(Math.max(-steps, Math.min(steps, count)) * step * 1e5) / 1e5;
  const count = Math.round(value / step);
  return (
    <Slider
      className="mover"
      value={count}
      minValue={-steps}
      maxValue={steps}
      step={1}
      onChange={(now) => onChange(at(typeof now === 'number' ? now : 0))}
    >
      <div className="mover__head">
        <Label className="mover__name">{name}</Label>
        <SliderOutput className="mover__says digits">{says(value)}</SliderOutput>
      </div>
      <div className="mover__row">
        <Button onPress={() => onChange(at(count - 1))} more={`${name} one step`}>
          {ways[0]}
        </Button>
        <SliderTrack className="mover__track">
          <span className="mover__middle" aria-hidden="true" />
          <SliderThumb className="mover__thumb" aria-label={name} />
        </SliderTrack>
        <Button onPress={() => onChange(at(count + 1))} more={`${name} one step`}>
          {ways[1]}
        </Button>
      </div>
    </Slider>
  );
}
