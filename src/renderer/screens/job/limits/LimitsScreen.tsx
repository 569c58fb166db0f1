import { useEffect, useMemo, useRef, useState } from 'react';
import type { Build } from '../../../../shared/job/records/build.ts';
import type { LimitedQuantity, SpecSheet } from '../../../../shared/job/records/specSheet.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { useDraft, useHeld } from '../../../parts/useDraft.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { ask } from '../../../stores/ask.ts';
import { writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';
import { goToNext } from '../../checks/check/goOn.ts';
import { useBenchSeen } from '../../../stores/bench.ts';
import { useSession } from '../../../stores/session.ts';
import { blankLimit, isBlank, type LimitDraft } from './draft.ts';
import { LimitRow } from './LimitRow.tsx';
import { ChangePanel } from './ChangePanel.tsx';
import { SheetShelf } from './SheetShelf.tsx';
import { changedBy, copyOf, readChangedSheet, type SheetDraft, sheetDraftOf, type SheetErrors } from './sheet.ts';
import './limits.css';

interface LimitsScreenProps {
  readonly build: Build;
  /** The limit that was asked for. */
  readonly line: LimitedQuantity | undefined;
}

/**
 * The limits for this axle: each with its unit, its basis and where it comes from. Where the shop has sheets and this build has
 * none, one of them is looked for first.
 */
export function LimitsScreen({ build, line }: LimitsScreenProps) {
  const units = useSession((session) => session.units);
  const form = useSheetForm(build);
  const sheets = useSheetsKnown();
  const [wanted, setWanted] = useState<'shelf' | 'sheet' | undefined>(line === undefined ? undefined : 'sheet');
  const untouched = build.specSheet === undefined && !form.touched;
  const shown = wanted ?? (untouched ? 'shelf' : 'sheet');
  if (shown === 'shelf' && sheets === undefined) return <Stage title="Limits">{undefined}</Stage>;
  if (shown === 'shelf' && sheets !== undefined && sheets.length > 0) {
    const take = (sheet: SpecSheet): void => {
      form.change(copyOf(sheet, build.makeUp, units));
      setWanted('sheet');
    };
    return <SheetShelf sheets={sheets} onTake={take} onTypeOne={() => setWanted('sheet')} />;
  }
  const library = sheets === undefined || sheets.length === 0 ? undefined : () => setWanted('shelf');
  return <SheetTyped build={build} line={line} form={form} onLibrary={library} />;
}

interface SheetTypedProps extends LimitsScreenProps {
  readonly form: ReturnType<typeof useSheetForm>;
  /** Opens the shop's sheets; absent where there is none. */
  readonly onLibrary: (() => void) | undefined;
}

function SheetTyped({ build, line, form, onLibrary }: SheetTypedProps) {
  const { draft, change, errors, submit, changed } = form;
  const wrong = Object.keys(errors.rows ?? {}).length + (errors.name === undefined ? 0 : 1);
  const rows = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (line !== undefined) rows.current?.querySelector<HTMLElement>(`[data-quantity="${line}"] input`)?.focus();
  }, [line]);
  const count = draft.rows.filter((row) => !isBlank(row)).length;
  return (
    <>
      <Stage title="Limits">
        <SheetHead draft={draft} onChange={change} error={errors.name} />
        {changed === undefined ? undefined : (
          <ChangePanel changed={changed} draft={draft} errors={errors.change ?? {}} onChange={change} />
        )}
        <div ref={rows}>
          <LimitRows rows={draft.rows} errors={errors.rows ?? {}} onChange={(rows) => change({ rows })} />
        </div>
      </Stage>
      <Words
        title={wrong > 0 ? `${wrong === 1 ? 'One line needs' : `${wrong} lines need`} another look` : countWords(count)}
        next={{
          words: keepWords(build, count),
          run: submit,
        }}
        others={onLibrary === undefined ? undefined : <Button onPress={onLibrary}>From the shop’s sheets</Button>}
      >
        <p>
          From the maker’s manual for this axle, or etched on the gear. A line left empty has no limit, and its reading
          no verdict.
        </p>
        {changed === undefined ? undefined : (
          <p>A limit changes that something was held against. Say why, and what becomes of what was read.</p>
        )}
        <p className="quiet">
          Backlash is compared only with a limit felt the same way, a torque only in the same state.
        </p>
      </Words>
    </>
  );
}

/** The shop's sheets, and on a simulated bench that of its axle; undefined until the bench has answered. */
function useSheetsKnown(): readonly SpecSheet[] | undefined {
  const [earlier, setEarlier] = useState<readonly SpecSheet[]>();
  useEffect(() => void ask('spec-sheets.list', {}).then((sheets) => setEarlier(sheets ?? [])), []);
  const simulated = useBenchSeen(({ about }) => about?.simulatedAxle?.specSheet);
  if (earlier === undefined || simulated === undefined) return earlier;
  return [...earlier.filter(({ name }) => name !== simulated.name), simulated];
}

/** The sheet as the notebook has it, or a line for every quantity this axle is asked for. */
function useSheetForm(build: Build) {
  const units = useSession((session) => session.units);
  const held = useHeld<SheetDraft>(() => sheetDraftOf(build, units));
  const form = useDraft(held, {
    read: (draft) => readChangedSheet(build, draft),
    keep: async ({ specSheet, change }) => {
      const written = await writeDeed({
        kind: 'limits-set',
        specSheet,
        ...(change === undefined ? {} : { change }),
      });
      // The first limits lead on; a change made later leads back to where the build stands.
      if (written && build.specSheet === undefined) goToNext();
      else if (written) go({ at: 'build', build: build.id });
      return written;
    },
  });
  return { ...form, changed: useMemo(() => changedBy(build, held.draft), [build, held.draft]) };
}

/** Without a limit nothing is called within or outside, and that is said before it is kept. */
function keepWords({ specSheet }: Build, count: number): string {
  if (specSheet !== undefined) return 'Keep the changes';
  return count === 0 ? 'Go on without limits' : 'Keep these limits';
}

const countWords = (count: number): string => {
  if (count === 0) return 'No limit entered yet';
  return count === 1 ? 'One limit entered' : `${count} limits entered`;
};

interface SheetHeadProps {
  readonly draft: SheetDraft;
  readonly error: string | undefined;
  readonly onChange: (change: Partial<SheetDraft>) => void;
}

const SheetHead = ({ draft, error, onChange }: SheetHeadProps) => (
  <div className="sheet-head">
    <Field label="Name of the spec sheet" value={draft.name} error={error} onChange={(name) => onChange({ name })} />
    <Choice
      label="What decides"
      value={draft.rule}
      onChange={(rule) => onChange({ rule })}
      options={[
        { value: 'simple', words: 'The reading' },
        { value: 'guarded', words: 'The reading and its ±' },
      ]}
    />
  </div>
);

interface LimitRowsProps {
  readonly rows: readonly LimitDraft[];
  readonly errors: NonNullable<SheetErrors['rows']>;
  readonly onChange: (rows: readonly LimitDraft[]) => void;
}

function LimitRows({ rows, errors, onChange }: LimitRowsProps) {
  const units = useSession((session) => session.units);
  const change = (index: number, row: LimitDraft): void => onChange(rows.with(index, row));
  const another = (index: number, row: LimitDraft): void => {
    const count = rows.filter((one) => one.quantity === row.quantity).length;
    const fresh = { ...blankLimit(row.quantity, `${row.quantity}-${count}`, units), source: row.source };
    onChange(rows.toSpliced(index + 1, 0, fresh));
  };
  /** A source typed once is what the next lines most likely come from. */
  const lastSource = (index: number): string =>
    rows.slice(0, index).findLast((row) => row.source.trim() !== '')?.source ?? '';
  return (
    <div className="limit-rows" role="group" aria-label="Limits">
      <div className="limit-row limit-row--heads" aria-hidden="true">
        <span />
        <span>Lower</span>
        <span>Upper</span>
        <span>Unit</span>
        <span>Basis</span>
        <span>Where it comes from</span>
      </div>
      {rows.map((row, index) => (
        <LimitRow
          key={row.key}
          row={row}
          errors={errors[row.key] ?? {}}
          sourceBefore={lastSource(index)}
          onChange={(changed) => change(index, changed)}
          onAnother={rows[index + 1]?.quantity === row.quantity ? undefined : () => another(index, row)}
        />
      ))}
    </div>
  );
}
