import { useMemo, useState } from 'react';
import { type Assembly, type Build, packAt } from '../../../../shared/job/records/build.ts';
import { type MakeUp, type ShimPlace, shimPlaces, shimPlacesOf } from '../../../../shared/axle/makeUp.ts';
import type { ShimPack } from '../../../../shared/job/records/measurement.ts';
import { ok } from '../../../../shared/basics/result.ts';
import type { UnitSystem } from '../../../../shared/basics/show.ts';
import { ShimStacks } from '../../../instruments/ShimStacks.tsx';
import { Button } from '../../../parts/Button.tsx';
import { wrong } from '../../../parts/draft.ts';
import { Field } from '../../../parts/Field.tsx';
import { draftOf, emptyDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { isEmpty, noPack, type PackDraft, placeWords, readEach, readPack, readPacks, sumOf } from './shims.ts';
import { stacksView } from './stacks.ts';
import { readTool, type ToolDraft, toolErrors, usualTool } from './tool.ts';
import { ToolFields } from './ToolFields.tsx';
import { TypedStage } from './TypedStage.tsx';
import { useTypedForm } from './useTypedForm.ts';

interface ShimsDraft {
  readonly packs: readonly PackDraft[];
  readonly tool: ToolDraft;
}

/** Every shim by its place, and each pack as clamped. */
export function ShimsScreen({ shimsOf, ...props }: CheckProps & { readonly shimsOf?: string | undefined }) {
  const { build, assembly } = props;
  const units = useSession((session) => session.units);
  const [start] = useState(() => packsKnown(build, assembly, { shimsOf, units }));
  const { draft, change, errors, tried, submit } = useTypedForm(props, {
    measure: 'length',
    start: (): ShimsDraft => ({ packs: start, tool: usualTool('length', units) }),
    read: readShims,
  });
  const { packs, tool } = draft;
  const view = useMemo(() => stacksView(build, assembly.id, packs), [build, assembly.id, packs]);
  const nothing = packs.every(isEmpty);
  const same = packsAsBefore(build, assembly.id, packs);
  return (
    <TypedStage
      {...props}
      submit={submit}
      touched={packs !== start}
      keep="Keep the shims"
      picture={null}
      others={
        <>
          {same === undefined ? undefined : (
            <Button onPress={() => change({ packs: same })}>The same packs as before</Button>
          )}
          <ShimHelp build={build.id} assembly={assembly.id} />
        </>
      }
    >
      <ShimStacks view={view} />
      <div className="shims">
        {packs.map((pack, index) => (
          <PackRow
            key={pack.place}
            pack={pack}
            before={beforeWords(build, props.assembly.id, pack)}
            tried={tried}
            asked={nothing && index === 0}
            focused={index === 0}
            onChange={(changed) => change({ packs: packs.with(index, changed) })}
          />
        ))}
      </div>
      <ToolFields measure="length" draft={tool} errors={errors} onChange={(now) => change({ tool: now })} />
    </TypedStage>
  );
}

function readShims({ packs, tool }: ShimsDraft) {
  const typed = readPacks(packs);
  const how = readTool(tool, 'length');
  if (typed.ok && how.ok) return ok({ how: how.value, result: { kind: 'shims' as const, packs: [...typed.value] } });
  return wrong(toolErrors(how));
}

interface PacksFrom {
  /** The earlier trial whose packs are laid out to begin with. */
  readonly shimsOf: string | undefined;
  readonly units: UnitSystem;
}

/** The packs as they were measured already, here or in the trial they go back to; an empty line for each other place. */
function packsKnown(build: Build, assembly: Assembly, { shimsOf, units }: PacksFrom): readonly PackDraft[] {
  const earlier = build.assemblies.find(({ id }) => id === shimsOf);
  return placesOf(build.makeUp).map((place) => {
    const known = packAt(assembly, place) ?? (earlier === undefined ? undefined : packAt(earlier, place));
    return known === undefined ? { place, each: '', pack: emptyDraft('length', units) } : draftOfPack(known);
  });
}

const draftOfPack = ({ place, each, pack }: ShimPack): PackDraft => ({
  place,
  each: each.map((one) => String(one.value)).join(' '),
  pack: draftOf(pack),
});

/** Beside the shims: what they should be, and which are there. */
const ShimHelp = ({ build, assembly }: { readonly build: string; readonly assembly: string }) => (
  <>
    <Button onPress={() => go({ at: 'sums', build, assembly, sum: 'depth' })}>Work it out</Button>
    <Button onPress={() => go({ at: 'drawer', build })}>Shims at hand</Button>
  </>
);

const placesOf = (makeUp: MakeUp | undefined) => (makeUp === undefined ? shimPlaces : shimPlacesOf(makeUp));

/** What lay at this place in the assembly before, for whoever changes only one pack. */
function packBefore(build: Build, assembly: string, place: ShimPlace): ShimPack | undefined {
  const at = build.assemblies.findIndex((one) => one.id === assembly);
  const before = build.assemblies.slice(0, at).findLast((one) => packAt(one, place) !== undefined);
  return before === undefined ? undefined : packAt(before, place);
}

function beforeWords(build: Build, assembly: string, { place }: PackDraft): string | undefined {
  const pack = packBefore(build, assembly, place);
  return pack === undefined ? undefined : `Before: ${pack.pack.value} ${draftSymbol(pack.pack.unit)}`;
}

/** Every place that is still empty with what lay there before; nothing where there is nothing to take over. */
function packsAsBefore(build: Build, assembly: string, packs: readonly PackDraft[]): readonly PackDraft[] | undefined {
  const filled = packs.map((now) => {
    const before = now.pack.text.trim() === '' ? packBefore(build, assembly, now.place) : undefined;
    return before === undefined ? now : draftOfPack(before);
  });
  return filled.some((now, index) => now !== packs[index]) ? filled : undefined;
}

const draftSymbol = (unit: string): string => (unit === '[in_i]' ? 'in' : unit);

interface PackRowProps {
  readonly pack: PackDraft;
  readonly before: string | undefined;
  readonly tried: boolean;
  /** Whether this line says it where nothing at all is typed. */
  readonly asked: boolean;
  readonly focused: boolean;
  readonly onChange: (pack: PackDraft) => void;
}

function PackRow({ pack, before, tried, asked, focused, onChange }: PackRowProps) {
  const name = placeWords[pack.place];
  const read = readPack(pack);
  const sum = sumOf(pack);
  const each = readEach(pack);
  return (
    <div className="shims__place" role="group" aria-label={name}>
      <span className="shims__name">{name}</span>
      <Field
        label="Each shim"
        value={pack.each}
        hint={before ?? (pack.pack.unit === '[in_i]' ? 'As .030 + .005' : 'As 1.00 + 0.25')}
        error={tried && !each.ok ? each.problem.sentence : undefined}
        onChange={(each) => onChange({ ...pack, each })}
      />
      <QuantityField
        autoFocus={focused}
        asked
        label="Pack as clamped"
        measure="length"
        draft={pack.pack}
        error={
          tried && (asked || !isEmpty(pack)) && each.ok && !read.ok
            ? asked
              ? noPack
              : read.problem.sentence
            : undefined
        }
        onChange={(draft) => onChange({ ...pack, pack: draft })}
      />
      <span className="shims__sum quiet digits">{sum === undefined ? '' : `Shims alone ${sum}`}</span>
    </div>
  );
}
