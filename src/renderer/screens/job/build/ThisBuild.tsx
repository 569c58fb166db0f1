import { useState } from 'react';
import type { Build } from '../../../../shared/job/records/build.ts';
import type { Laying } from '../../../../shared/job/records/notebook.ts';
import { type Alike, alikes } from '../../../../shared/job/shop/sought.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Form } from '../../../parts/Form.tsx';
import { Reveal } from '../../../parts/Reveal.tsx';
import { useSummary } from '../../../stores/builds.ts';
import { writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';

/** What is done with a build as a whole: another name, put away when it is done, thrown away when it was a mistake. */
export const ThisBuild = ({ build }: { readonly build: Build }) => (
  <Reveal label="This build" words={liesWords[build.lies]}>
    <Rename build={build} />
    <AlikeBuilds build={build.id} />
    {build.lies === 'on-the-bench' ? <LayAside build={build} /> : <TakeBack />}
  </Reveal>
);

const liesWords: Readonly<Record<Laying, string>> = {
  'on-the-bench': 'This build',
  'put-away': 'Put away',
  'thrown-away': 'Thrown away',
};

function Rename({ build }: { readonly build: Build }) {
  const [title, setTitle] = useState(build.title);
  const isOther = title.trim() !== '' && title.trim() !== build.title;
  const rename = (): void => {
    if (isOther) void writeDeed({ kind: 'renamed', title: title.trim() });
  };
  return (
    <Form className="reveal__form" words="Rename" submit={rename}>
      <Field label="Its name" value={title} onChange={setTitle} />
      <Button onPress={rename} disabled={!isOther}>
        Rename
      </Button>
    </Form>
  );
}

const alikeWords: Readonly<Record<Alike, string>> = {
  axle: 'Builds of this axle',
  customer: 'Builds of this customer',
  set: 'Builds of this set',
};

/** The way to what was built of the same kind, where it is known what that is. */
function AlikeBuilds({ build }: { readonly build: string }) {
  const summary = useSummary(build);
  return alikes
    .filter((one) => one === 'axle' || summary?.[one] !== undefined)
    .map((one) => (
      <Button key={one} onPress={() => go({ at: 'shop', alike: { build, in: one } })}>
        {alikeWords[one]}
      </Button>
    ));
}

async function lay(where: Laying): Promise<void> {
  const written = await writeDeed({ kind: 'laid', where });
  if (written && where !== 'on-the-bench') go({ at: 'builds' });
}

/** Throwing away asks a second time; even then nothing is removed from the records. */
function LayAside({ build }: { readonly build: Build }) {
  const [asked, setAsked] = useState(false);
  if (!asked)
    return (
      <>
        <Button onPress={() => void lay('put-away')}>Put it away</Button>
        <Button onPress={() => setAsked(true)}>Throw it away</Button>
      </>
    );
  return (
    <>
      <p>
        Throw away <strong>{build.title}</strong> with everything read on it? It leaves the list; it can be taken back
        from <em>Thrown away</em> below the builds.
      </p>
      <Button onPress={() => void lay('thrown-away')}>Yes, throw it away</Button>
      <Button onPress={() => setAsked(false)}>Keep it</Button>
    </>
  );
}

const TakeBack = () => <Button onPress={() => void lay('on-the-bench')}>Take it back onto the bench</Button>;
