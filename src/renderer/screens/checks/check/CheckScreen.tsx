import { type Build, latest } from '../../../../shared/job/records/build.ts';
import type { CheckId } from '../../../../shared/job/records/checkIds.ts';
import { checkOf } from '../../../../shared/job/checks/checks.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { go } from '../../../stores/route.ts';
import { BacklashScreen } from '../backlash/BacklashScreen.tsx';
import { MarkScreen } from '../mark/MarkScreen.tsx';
import { CasePlayScreen } from '../play/CasePlayScreen.tsx';
import { PlayScreen } from '../play/PlayScreen.tsx';
import { SpreadScreen } from '../play/SpreadScreen.tsx';
import { RunoutScreen } from '../runout/RunoutScreen.tsx';
import { TorqueScreen } from '../torque/TorqueScreen.tsx';
import { ConfirmScreen } from '../typed/ConfirmScreen.tsx';
import { FeelerScreen } from '../typed/FeelerScreen.tsx';
import { NotchesScreen } from '../typed/NotchesScreen.tsx';
import { QuantityScreen } from '../typed/QuantityScreen.tsx';
import { SetNumbersScreen } from '../typed/SetNumbersScreen.tsx';
import { ShimsScreen } from '../typed/ShimsScreen.tsx';
import type { CheckProps } from './checkProps.ts';
import { noCase } from '../../../../shared/basics/noCase.ts';

interface CheckScreenProps {
  readonly build: Build;
  readonly assembly: string;
  readonly check: CheckId;
  /** For shims: the earlier trial whose packs are laid out to begin with. */
  readonly shimsOf?: string | undefined;
  readonly anew?: string | undefined;
}

/** The screen by which a check is answered. */
export function CheckScreen({ build, assembly: id, check, shimsOf, anew }: CheckScreenProps) {
  const assembly = build.assemblies.find((one) => one.id === id);
  if (assembly === undefined) return <NoAssembly build={build} />;
  const props: CheckProps = { build, assembly, check: checkOf(check, build.makeUp), anew };
  // A new measurement of the check starts its screen afresh.
  const key = latest(assembly, check)?.id ?? 'first';
  switch (props.check.method) {
    case 'backlash':
      return <BacklashScreen {...props} />;
    case 'runout':
      return <RunoutScreen {...props} />;
    case 'torque':
      return <TorqueScreen {...props} />;
    case 'play':
      return <PlayScreen key={key} {...props} />;
    case 'case-play':
      return <CasePlayScreen key={key} {...props} />;
    case 'spread':
      return <SpreadScreen key={key} {...props} />;
    case 'length':
      return <QuantityScreen key={key} {...props} measure="length" />;
    case 'fastener':
      return <QuantityScreen key={key} {...props} measure="fastener" />;
    case 'feeler':
      return <FeelerScreen key={key} {...props} />;
    case 'set-numbers':
      return <SetNumbersScreen key={key} {...props} />;
    case 'shims':
      return <ShimsScreen key={key} {...props} shimsOf={shimsOf} />;
    case 'confirm':
      return <ConfirmScreen key={key} {...props} />;
    case 'notches':
      return <NotchesScreen key={key} {...props} />;
    case 'mark':
      return <MarkScreen key={key} {...props} />;
    default:
      throw noCase(props.check.method);
  }
}

export const NoAssembly = ({ build }: { readonly build: Build }) => (
  <>
    <Stage title="Not there any more">
      <p>This assembly was struck through. What was written stays readable in the notebook.</p>
    </Stage>
    <Words
      title="Go on from the stand"
      next={{ words: 'Back to the stand', run: () => go({ at: 'build', build: build.id }) }}
    />
  </>
);
