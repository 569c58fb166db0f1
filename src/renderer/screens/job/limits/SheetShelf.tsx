import { useState } from 'react';
import type { Limit, SpecSheet } from '../../../../shared/job/records/specSheet.ts';
import { limitBasisWords, limitWords, quantityWords } from '../../../../shared/presentation/words/limits.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Form } from '../../../parts/Form.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { useSession } from '../../../stores/session.ts';
import { sheetsFound, sheetWords } from './library.ts';
import './limits.css';

interface SheetShelfProps {
  /** The newest of each name, over all builds. */
  readonly sheets: readonly SpecSheet[];
  readonly onTake: (sheet: SpecSheet) => void;
  readonly onTypeOne: () => void;
}

/** The shop's spec sheets: found by a word of name or source, and copied into this build, where changing it changes no other. */
export function SheetShelf({ sheets, onTake, onTypeOne }: SheetShelfProps) {
  const [typed, setTyped] = useState('');
  const found = sheetsFound(sheets, typed);
  const [first] = found;
  // The pedal takes a sheet only where somebody asked for it by its words and it is the only one.
  const asked = typed.trim() !== '' && found.length === 1 ? first : undefined;
  const next =
    asked === undefined
      ? { words: 'Type a new sheet', run: onTypeOne }
      : { words: `Copy ${asked.name}`, run: () => onTake(asked) };
  return (
    <>
      <Stage title="Limits">
        <Form className="shelf" words={next.words} submit={next.run}>
          {sheets.length < fewToSearch ? undefined : (
            <Field type="search" label="Words of its name or source" value={typed} onChange={setTyped} />
          )}
          {found.length === 0 ? <p className="quiet">None of {sheets.length} has these words.</p> : undefined}
          <ul className="shelf__sheets" aria-label="The shop’s spec sheets">
            {found.map((sheet) => (
              <li key={sheet.name} className="shelf__sheet">
                <span className="shelf__words">
                  <strong>{sheet.name}</strong>
                  <span className="quiet">{sheetWords(sheet)}</span>
                  <SheetLimits sheet={sheet} />
                </span>
                <Button onPress={() => onTake(sheet)} more={sheet.name}>
                  Copy it
                </Button>
              </li>
            ))}
          </ul>
        </Form>
      </Stage>
      <Words title="Which sheet is this axle’s?" next={next}>
        <p>
          A sheet that was typed for an axle before is copied and looked over, and need not be typed again. Changing the
          copy changes no other build.
        </p>
        <p className="quiet">Compare it with the maker’s manual for the axle that is on the stand now.</p>
      </Words>
    </>
  );
}

/** What stands in it: a sheet is known by its figures as well as by its name. */
function SheetLimits({ sheet }: { readonly sheet: SpecSheet }) {
  const units = useSession((session) => session.units);
  return (
    <span className="shelf__limits digits">
      {sheet.limits.map((limit) => (
        <span key={`${limit.quantity} ${limitBasisWords(limit)}`}>
          {quantityWords[limit.quantity]} {limitWords(limit, units)}
          {stateWords(limit, sheet)}
        </span>
      ))}
    </span>
  );
}

/** The state a limit is for, where the sheet has several of one quantity and only that tells them apart. */
const stateWords = (limit: Limit, { limits }: SpecSheet): string =>
  limits.filter(({ quantity }) => quantity === limit.quantity).length > 1 ? `, ${limitBasisWords(limit)}` : '';

/** Fewer than this are seen at a glance (own choice). */
const fewToSearch = 4;
