import { Button as Pressable } from 'react-aria-components';
import { seenIn } from '../../../../shared/job/checks/marksSeen.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import { assemblyName, type Build } from '../../../../shared/job/records/build.ts';
import type { StripEntry, StripMoved } from '../../../../shared/job/checks/strip.ts';
import { resultBrief, typedText } from '../../../../shared/presentation/words/results.ts';
import { FlanksPicture, shown } from '../../../instruments/FlanksPicture.tsx';
import { Button } from '../../../parts/Button.tsx';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import { dayWords } from '../../../words/days.ts';
import { Thumb } from '../../checks/photo/KeptPhotos.tsx';
import { placeWords } from '../../checks/typed/shims.ts';
import { backToShimsOf } from './backToShims.ts';

interface TrialColumnProps {
  readonly build: Build;
  readonly entry: StripEntry;
  readonly mayGoBack: boolean;
}

/** One putting-together, from its shims down to its marks. */
export function TrialColumn({ build, entry, mayGoBack }: TrialColumnProps) {
  const { assembly, mark } = entry;
  const name = assemblyName(assembly);
  return (
    <li className="trial" aria-label={name}>
      <h2 className="trial__name">
        <Pressable className="trial__open" onPress={() => go({ at: 'build', build: build.id, assembly: assembly.id })}>
          {name}
        </Pressable>
        <span className="quiet">{dayWords(assembly.at)}</span>
      </h2>
      <Marks build={build} entry={entry} />
      <TrialFigures entry={entry} />
      {mark?.note === undefined ? undefined : <p className="trial__note">{mark.note}</p>}
      <Photos build={build} entry={entry} />
      <div className="trial__doing">
        {mark === undefined ? undefined : (
          <Button
            look="quiet"
            more={name}
            onPress={() => go({ at: 'meaning', build: build.id, assembly: assembly.id })}
          >
            What it means
          </Button>
        )}
        {mayGoBack && entry.packs.length > 0 ? (
          <Button more={name} onPress={() => void backToShimsOf(build, assembly)}>
            Back to these shims
          </Button>
        ) : undefined}
      </div>
    </li>
  );
}

function Marks({ build, entry }: Pick<TrialColumnProps, 'build' | 'entry'>) {
  const { makeUp } = build;
  const seen = entry.mark === undefined ? undefined : seenIn(entry.mark)[0];
  if (makeUp === undefined || seen === undefined) return <p className="trial__no-mark quiet">No mark read</p>;
  return (
    <div className="trial__marks">
      <FlanksPicture
        bare
        makeUp={makeUp}
        drive={shown(seen.drive, entry.expected?.drive)}
        coast={shown(seen.coast, entry.expected?.coast)}
      />
    </div>
  );
}

/** Shims with what was changed, backlash, and what was decided of the mark. */
export function TrialFigures({ entry }: Pick<TrialColumnProps, 'entry'>) {
  const units = useSession((session) => session.units);
  return (
    <dl className="trial__figures digits">
      {entry.packs.map(({ place, pack, change_mm }) => (
        <div key={place}>
          <dt>{placeWords[place]}</dt>
          <dd>
            {typedText(pack, units)}
            {change_mm === undefined ? undefined : (
              <span className="quiet"> {changeWords(change_mm, (by) => showText(by, 'length', units))}</span>
            )}
          </dd>
        </div>
      ))}
      {entry.packs.length === 0 ? (
        <div className="trial__none">
          <dt>Shims</dt>
          <dd className="quiet">not recorded</dd>
        </div>
      ) : undefined}
      {entry.moved === undefined ? undefined : <Moved moved={entry.moved} units={units} />}
      <div>
        <dt>Backlash</dt>
        <dd>
          {entry.backlash === undefined ? 'not measured' : resultBrief(entry.backlash, units)}
          {entry.expected === undefined ? undefined : (
            <span className="quiet">
              expected {showText(entry.expected.backlash.mean_mm, 'length', units)} on average
            </span>
          )}
        </dd>
      </div>
      <div>
        <dt>Mark</dt>
        <dd>{entry.mark === undefined ? 'not read' : resultBrief(entry.mark, units)}</dd>
      </div>
    </dl>
  );
}

function Moved({ moved, units }: { readonly moved: StripMoved; readonly units: UnitSystem }) {
  const words = (by: number | undefined, plus: string, minus: string): string => {
    if (by === undefined) return 'not known';
    return by === 0 ? 'not moved' : `${showText(Math.abs(by), 'length', units)} ${by > 0 ? plus : minus}`;
  };
  return (
    <div>
      <dt>Since trial 1</dt>
      <dd>
        pinion {words(moved.pinionOut_mm, 'out', 'deeper')}
        <span className="quiet">ring gear {words(moved.ringAway_mm, 'away', 'closer')}</span>
      </dd>
    </div>
  );
}

const changeWords = (by: number, text: (by: number) => string): string =>
  by === 0 ? 'as before' : `${text(Math.abs(by))} ${by > 0 ? 'thicker' : 'thinner'}`;

function Photos({ build, entry }: Pick<TrialColumnProps, 'build' | 'entry'>) {
  const { assembly, mark } = entry;
  if (assembly.photos.length === 0) return undefined;
  return (
    <ul className="thumbs trial__photos">
      {assembly.photos.map(({ sha256 }, n) => {
        const read = mark?.photos?.find(({ photo }) => photo === sha256);
        const [flank, place] = [read?.flank ?? 'drive', read?.place ?? 0];
        return (
          <li key={sha256}>
            <Pressable
              className="thumbs__one"
              aria-label={`Photo ${n + 1} of ${assemblyName(assembly).toLowerCase()}`}
              onPress={() => go({ at: 'photo', build: build.id, assembly: assembly.id, flank, place, photo: sha256 })}
            >
              <Thumb sha256={sha256} />
            </Pressable>
          </li>
        );
      })}
    </ul>
  );
}
