import { useRef, useState } from 'react';
import { largestTakenIn_bytes } from '../../../../shared/contract/exports.ts';
import { Button } from '../../../parts/Button.tsx';
import { ask } from '../../../stores/ask.ts';
import { go } from '../../../stores/route.ts';

/** A build that another bench has given out as a file. */
export function TakeIn() {
  const chooser = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState<string>();
  const read = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    if (file.size > largestTakenIn_bytes) return setSaid(tooLarge(file));
    const taken = await ask('exports.take-in', { base64: base64Of(await file.arrayBuffer()) });
    if (taken === undefined) return;
    setSaid(
      taken.entries === 0
        ? 'It was here already, and nothing was changed.'
        : `Taken in: ${taken.entries} entries and ${taken.readings} rows of readings.`,
    );
    go({ at: 'build', build: taken.build });
  };
  return (
    <section>
      <h2>From another bench?</h2>
      <p>A build that was given out “for another bench” is taken in whole, with its readings and photos.</p>
      <input
        ref={chooser}
        type="file"
        accept=".axlewright"
        aria-label="File of the build"
        hidden
        onChange={(event) => {
          void read(event.currentTarget.files?.[0]);
          // The same file can be chosen again.
          event.currentTarget.value = '';
        }}
      />
      <Button onPress={() => chooser.current?.click()}>Take in a build</Button>
      {said === undefined ? undefined : <p role="status">{said}</p>}
    </section>
  );
}

const tooLarge = ({ size }: File): string =>
  `This file has ${(size / 1e6).toFixed(1)} MB, more than a page may hand over. End the bench and take it in on the command line: import.`;

/** In pieces, because a call takes only so many numbers. */
function base64Of(bytes: ArrayBuffer): string {
  const all = new Uint8Array(bytes);
  let letters = '';
  for (let at = 0; at < all.length; at += 8192) letters += String.fromCodePoint(...all.subarray(at, at + 8192));
  return btoa(letters);
}
