import { useState } from 'react';
import type { Ask } from '../../../shared/contract/contract.ts';
import { Button } from '../../parts/Button.tsx';
import { ask } from '../../stores/ask.ts';
import { usePaper } from '../../stores/papers.ts';
import { bytesOf, saveFile } from '../../stores/saveFile.ts';
import { PaperProgress } from './PaperProgress.tsx';

type Form = Ask<'exports.make'>['as'];

const forms: readonly (readonly [Form, string])[] = [
  ['pdf', 'The pages (PDF), not issued'],
  ['csv', 'Tables (CSV)'],
  ['json', 'All its data (JSON)'],
  ['qif', 'Results (QIF)'],
  ['journal', 'Readings, line by line'],
  ['bundle', 'For another bench'],
];

interface ElsewhereProps {
  readonly build: string;
  readonly everything: boolean;
  readonly hasPhotos: boolean;
}

/** The build as files for other programs and for another bench. Nothing is noted in it. */
export function Elsewhere({ build, everything, hasPhotos }: ElsewhereProps) {
  const [making, setMaking] = useState<Form>();
  const [kept, setKept] = useState<readonly string[]>([]);
  const paper = usePaper();
  const make = async (as: Form, photos = false): Promise<void> => {
    setMaking(as);
    setKept([]);
    const what = { build, as, everything, photos, job: paper.job };
    const made = await paper.run(() => ask('exports.make', what));
    setMaking(undefined);
    for (const { name, base64 } of made?.files ?? []) saveFile(name, bytesOf(base64));
    setKept(made?.files.map(({ name }) => name) ?? []);
  };
  return (
    <>
      <h2 className="certificate__head">Take the build elsewhere</h2>
      <p className="certificate__forms">
        {forms.map(([form, words]) => (
          <Button key={form} disabled={making !== undefined} onPress={() => void make(form)}>
            {making === form ? 'Writing it …' : words}
          </Button>
        ))}
        {hasPhotos ? (
          <Button disabled={making !== undefined} onPress={() => void make('json', true)}>
            Data with photos
          </Button>
        ) : undefined}
      </p>
      <PaperProgress paper={paper} words="Writing it" />
      {kept.length === 0 ? undefined : (
        <p className="quiet" role="status">
          {kept.length === 1 ? kept[0] : `${kept.length} files, the first ${kept[0]}`}
        </p>
      )}
    </>
  );
}
