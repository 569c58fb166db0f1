import { useEffect, useState } from 'react';
import type { Answer } from '../../../../shared/contract/contract.ts';
import type { Version } from '../../../../shared/contract/about.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { ask } from '../../../stores/ask.ts';
import { useBenchSeen } from '../../../stores/bench.ts';
import { changeSession, useSession } from '../../../stores/session.ts';
import { dayWords } from '../../../words/days.ts';

/** Which version this is, what is new in it, whose parts it is made of, and whether there is a newer one, where that is asked. */
export function About() {
  const about = useBenchSeen((seen) => seen.about);
  const [parts, setParts] = useState<Answer<'about.parts'>>();
  useEffect(() => {
    void ask('about.parts', {}, () => undefined).then(setParts);
  }, []);
  return (
    <section className="sheet__part">
      <h3>About</h3>
      {about === undefined ? undefined : <p>Axlewright {about.version}. Free software under the MIT licence.</p>}
      {parts?.versions.map((version) => (
        <WhatIsNew key={version.version} version={version} />
      ))}
      <Newer />
      {parts === undefined ? undefined : <Licences lines={parts.licences} />}
    </section>
  );
}

const WhatIsNew = ({ version: { version, date, news } }: { readonly version: Version }) => (
  <details className="sheet__more">
    <summary>
      What is new in {version}, {dayWords(date)}
    </summary>
    <ul>
      {news.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  </details>
);

function Licences({ lines }: { readonly lines: readonly string[] }) {
  if (lines.length === 0)
    return <p className="quiet">It runs from its sources: the licence of each part lies beside that part.</p>;
  return (
    <details className="sheet__more">
      <summary>Licences of its {lines.length} parts</summary>
      <p className="quiet">Their whole texts lie in the folder “licences” of the program.</p>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </details>
  );
}

/** Looked at when the button is pressed, and at no other time. */
function Newer() {
  const versionsAt = useSession((session) => session.versionsAt);
  const [found, setFound] = useState<Answer<'about.newer'>>();
  const [error, setError] = useState<string>();
  const look = async (): Promise<void> => {
    setError(undefined);
    setFound(await ask('about.newer', { at: versionsAt }, ({ sentence, remedy }) => setError(`${sentence} ${remedy}`)));
  };
  return (
    <>
      <Field
        label="List of versions"
        hint="A file or an address in your network. It is looked at when you ask."
        value={versionsAt}
        onChange={(at) => changeSession({ versionsAt: at })}
        error={error}
      />
      <Button disabled={versionsAt.trim() === ''} onPress={() => void look()}>
        Is there a newer version?
      </Button>
      {found === undefined ? undefined : <p role="status">{newerWords(found)}</p>}
      {found?.newer.map((version) => (
        <WhatIsNew key={version.version} version={version} />
      ))}
    </>
  );
}

function newerWords({ newest, newer }: Answer<'about.newer'>): string {
  if (newer.length === 0) return `None is newer: the list ends with ${newest.version} of ${dayWords(newest.date)}.`;
  return `${newest.version} of ${dayWords(newest.date)} is newer. Whoever looks after this computer installs it.`;
}
