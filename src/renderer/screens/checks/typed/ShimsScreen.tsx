import { useMemo, useState } from 'react';
import { type Assembly, type Build, packAt } from '../../../../shared/job/records/build.ts';
import { type MakeUp, shimPlaces, shimPlacesOf } from '../../../../shared/axle/makeUp.ts';
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
import { type PackDraft, placeWords, readPack, readPacks, sumOf } from './shims.ts';
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
  return (
    <TypedStage
      {...props}
      submit={submit}
      touched={packs !== start}
      keep="Keep the shims"
      others={<ShimHelp build={build.id} assembly={assembly.id} />}
    >
      <ShimStacks view={view} />
      <div className="shims">
        {packs.map((pack, index) => (
          <PackRow
            key={pack.place}
            pack={pack}
            before={beforeWords(build, props.assembly.id, pack)}
            tried={tried}
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
    return known === undefined
      ? { place, each: '', pack: emptyDraft('length', units) }
      : { place, each: known.each.map((one) => String(one.value)).join(' '), pack: draftOf(known.pack) };
  });
}

/** Beside the shims: what they should be, and which are there. */
const ShimHelp = ({ build, assembly }: { readonly build: string; readonly assembly: string }) => (
  <>
    <Button onPress={() => go({ at: 'sums', build, assembly, sum: 'depth' })}>Work it out</Button>
    <Button onPress={() => go({ at: 'drawer', build })}>Shims at hand</Button>
  </>
);

const placesOf = (makeUp: MakeUp | undefined) => (makeUp === undefined ? shimPlaces : shimPlacesOf(makeUp));

/** What lay at this place in the assembly before, for whoever changes only one pack. */
function beforeWords(build: Build, assembly: string, { place }: PackDraft): string | undefined {
  const at = build.assemblies.findIndex((one) => one.id === assembly);
  const before = build.assemblies.slice(0, at).findLast((one) => packAt(one, place) !== undefined);
  const pack = before === undefined ? undefined : packAt(before, place);
  return pack === undefined ? undefined : `Before: ${pack.pack.value} ${draftSymbol(pack.pack.unit)}`;
}

const draftSymbol = (unit: string): string => (unit === '[in_i]' ? 'in' : unit);

interface PackRowProps {
  readonly pack: PackDraft;
  readonly before: string | undefined;
  readonly tried: boolean;
  readonly onChange: (pack: PackDraft) => void;
}

function PackRow({ pack, before, tried, onChange }: PackRowProps) {
  const name = placeWords[pack.place];
  const typed = pack.pack.text.trim() !== '' || pack.each.trim() !== '';
  const read = readPack(pack);
  const sum = sumOf(pack);
  return (
    <div className="shims__place" role="group" aria-label={name}>
      <span className="shims__name">{name}</span>
      <Field label="Each shim" value={pack.each} hint={before} onChange={(each) => onChange({ ...pack, each })} />
      <QuantityField
        label="Pack as clamped"
        measure="length"
        draft={pack.pack}
        error={tried && typed && !read.ok ? read.problem.sentence : undefined}
        onChange={(draft) => onChange({ ...pack, pack: draft })}
      />
      <span className="shims__sum quiet digits">{sum === undefined ? '' : `Shims alone ${sum}`}</span>
    </div>
  );
}
