import { useState } from 'react';
import { torqueReadOnce } from '../../../../shared/job/captures/readOnce.ts';
import { insideOf } from '../../../../shared/basics/recorded.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import type { CheckProps } from '../check/checkProps.ts';
import { QuantityScreen } from '../typed/QuantityScreen.tsx';
import { basisWanted, torqueBases, torqueSettings } from './settings.ts';

/** A rotating torque read off a wrench that sends nothing: running or starting, as the limit asks. */
export function TorqueTyped({ onListen, ...props }: CheckProps & { readonly onListen: () => void }) {
  const { build, assembly, check } = props;
  const [counting, setCounting] = useState(() => basisWanted(build.specSheet, check.limits[0], assembly));
  const { basis } = torqueSettings(assembly, counting);
  return (
    <QuantityScreen
      {...props}
      measure="torque"
      resultOf={(value, step) => torqueReadOnce(insideOf(value), basis, step)}
      others={<Button onPress={onListen}>By the torque gauge</Button>}
    >
      <div className="typed__wide">
        <Choice label="Which torque it is" value={counting} onChange={setCounting} options={torqueBases} />
      </div>
      <p className="typed__wide quiet">
        {counting === 'running'
          ? 'What keeps it turning, read while it turns steadily.'
          : 'The most it takes to start it.'}{' '}
        Seal {basis.seal}, {basis.bearings} bearings. Read once off a dial, its doubt is the step of the scale alone.
      </p>
    </QuantityScreen>
  );
}
