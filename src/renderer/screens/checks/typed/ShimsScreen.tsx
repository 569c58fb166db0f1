import { useState } from 'react';
import { type Build, packAt } from '../../../../shared/job/records/build.ts';
import { type MakeUp, shimPlaces, shimPlacesOf } from '../../../../shared/axle/makeUp.ts';
import { ok } from '../../../../shared/basics/result.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { draftOf, emptyDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { type PackDraft, placeWords, readPack, readPacks, sumOf } from './shims.ts';
import { readTool, useTool } from './tool.ts';
import { ToolFields } from './ToolFields.tsx';
import { TypedStage } from './TypedStage.tsx';

/** Every shim by its place, and each pack as clamped. */
export function ShimsScreen({ shimsOf, ...props }: CheckProps & { readonly shimsOf?: string | undefined }) {
  const { build, assembly } = props;
  const earlier = build.assemblies.find(({ id }) => id === shimsOf);
  const units = useSession((session) => session.units);
  const [packs, setPacks] = useState<readonly PackDraft[]>(() =>
    placesOf(build.makeUp).map((place) => {
      const known = packAt(assembly, place) ?? (earlier === undefined ? undefined : packAt(earlier, place));
      return known === undefined
        ? { place, each: '', pack: emptyDraft('length', units) }
        : { place, each: known.each.map((one) => String(one.value)).join(' '), pack: draftOf(known.pack) };
    }),
  );
  const [start] = useState(packs);
  const [tool, setTool, known] = useTool('length');
  const [tried, setTried] = useState(false);
  const how = readTool(tool, 'length');
  const read = () => {
    const typed = readPacks(packs);
    if (!typed.ok) return typed;
    return how.ok ? ok({ how: how.value, result: { kind: 'shims' as const, packs: [...typed.value] } }) : how;
  };
  return (
    <TypedStage
      {...props}
      read={read}
      onRefused={() => setTried(true)}
      touched={packs !== start}
      keep="Keep the shims"
      others={<ShimHelp build={build.id} assembly={assembly.id} />}
    >
      <div className="shims">
        {packs.map((pack, index) => (
          <PackRow
            key={pack.place}
            pack={pack}
            before={beforeWords(build, props.assembly.id, pack)}
            tried={tried}
            onChange={(changed) => setPacks(packs.with(index, changed))}
          />
        ))}
      </div>
      <ToolFields
        measure="length"
        draft={tool}
        known={known}
        problem={tried && !how.ok ? how.problem : undefined}
        onChange={setTool}
      />
    </TypedStage>
  );
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
