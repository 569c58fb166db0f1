import { useState } from 'react';
import { Button } from '../../../parts/Button.tsx';
import { ask } from '../../../stores/ask.ts';

/** Writes a report for whoever is to find out what went wrong, and says where it lies. */
export function SaveReport() {
  const [words, setWords] = useState('What happened lately, as a file. No names, no notes; it is sent nowhere.');
  const save = async (): Promise<void> => {
    const saved = await ask('bench.report', {}, ({ sentence, remedy }) => setWords(`${sentence} ${remedy}`));
    if (saved !== undefined) setWords(`Saved as ${saved.file} in ${saved.folder}.`);
  };
  return (
    <section className="sheet__part">
      <h3>Something went wrong?</h3>
      <Button onPress={() => void save()}>Save a report</Button>
      <p className="quiet" role="status">
        {words}
      </p>
    </section>
  );
}
