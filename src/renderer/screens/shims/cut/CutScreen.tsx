import { type CutSigns, cutFrom } from '../../../../shared/axle/cutSigns.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import type { Build } from '../../../../shared/job/records/build.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { useHeld } from '../../../parts/useDraft.ts';
import { Words } from '../../../parts/Words.tsx';
import { writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';
import { CutPicture } from './CutPicture.tsx';
import './cut.css';

/** Helps to tell face-milled from face-hobbed teeth; not known is an answer, and the bench goes by height then. */
export function CutScreen({ build }: { readonly build: Build }) {
  const { draft: signs, change } = useHeld<CutSigns>(() => ({
    height: 'not-known',
    slot: 'not-known',
    mark: 'not-known',
  }));
  const told = Object.values(signs).some((sign) => sign !== 'not-known');
  const entered = build.makeUp?.cut ?? 'not-known';
  // Signs replace what was entered; before the first one is told it stands.
  const { cut, why } = told || entered === 'not-known' ? cutFrom(signs) : { cut: entered, why: asEntered };
  return (
    <>
      <Stage title="How the teeth were cut">
        <SignChoices signs={signs} onChange={change} />
      </Stage>
      <Words
        title={told ? cutTitle[cut] : enteredTitle[cut]}
        next={{
          words: `${cut === entered ? 'Leave it at' : 'Set it to'} ${cut === 'not-known' ? 'not known' : cut}`,
          run: () => void keepCut(build, cut),
          disabled: build.makeUp === undefined,
        }}
      >
        <p>{why}</p>
        <p className="quiet">
          The cut decides which way pinion depth moves a mark along the face. Height answers the same way on both.
        </p>
      </Words>
    </>
  );
}

/** Writes the cut down where it is another one, and goes back to the stand. */
async function keepCut({ id, makeUp }: Build, cut: MakeUp['cut']): Promise<void> {
  const same = makeUp === undefined || makeUp.cut === cut;
  if (same || (await writeDeed({ kind: 'described', makeUp: { ...makeUp, cut } }))) go({ at: 'build', build: id });
}

interface SignChoicesProps {
  readonly signs: CutSigns;
  readonly onChange: (change: Partial<CutSigns>) => void;
}

/** What tells the two cuts apart on the gear itself. */
const SignChoices = ({ signs, onChange }: SignChoicesProps) => (
  <div className="cut">
    <CutPicture />
    <Choice
      label="Height of the ring-gear tooth: lay a rule along its crown, or measure at both ends"
      value={signs.height}
      onChange={(height) => onChange({ height })}
      options={[
        { value: 'taller-at-heel', words: 'Taller at the heel' },
        { value: 'equal', words: 'Equal at both ends' },
        { value: 'not-known', words: 'Not known' },
      ]}
    />
    <Choice
      label="Bottom of the slot between two teeth"
      value={signs.slot}
      onChange={(slot) => onChange({ slot })}
      options={[
        { value: 'equal', words: 'One width from end to end' },
        { value: 'wider-at-heel', words: 'Wider at the heel' },
        { value: 'not-known', words: 'Not known' },
      ]}
    />
    <Choice
      label="The mark, if there is one"
      value={signs.mark}
      onChange={(mark) => onChange({ mark })}
      options={[
        { value: 'square', words: 'Square to the tooth' },
        { value: 'slanted', words: 'Slanted' },
        { value: 'not-known', words: 'Not known' },
      ]}
    />
  </div>
);

const asEntered = 'It was entered so. Signs told here go before that.';

const enteredTitle = {
  'face-milled': 'Face-milled, as entered',
  'face-hobbed': 'Face-hobbed, as entered',
  'not-known': 'Not known',
} as const;

const cutTitle = {
  'face-milled': 'Face-milled, by these signs',
  'face-hobbed': 'Face-hobbed, by these signs',
  'not-known': 'Not known',
} as const;
