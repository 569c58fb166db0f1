import { runoutReadOnce } from '../../../../shared/job/captures/readOnce.ts';
import { insideOf } from '../../../../shared/basics/recorded.ts';
import { Button } from '../../../parts/Button.tsx';
import type { CheckProps } from '../check/checkProps.ts';
import { QuantityScreen } from '../typed/QuantityScreen.tsx';

/** A runout read off a dial that sends nothing: how far the needle went over one whole turn. */
export const RunoutTyped = ({ onListen, ...props }: CheckProps & { readonly onListen: () => void }) => (
  <QuantityScreen
    {...props}
    measure="dial"
    resultOf={(value, step) => runoutReadOnce(insideOf(value), step)}
    others={<Button onPress={onListen}>By the indicator</Button>}
  >
    <p className="typed__wide quiet">
      From the lowest place to the highest, over one whole turn. Read once off a dial, its doubt is the step of the
      scale alone, and it has no places: nothing tells where the gear is high.
    </p>
  </QuantityScreen>
);
