import { useState } from 'react';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { ask } from '../../../stores/ask.ts';
import { useBenchSeen } from '../../../stores/bench.ts';
import { useBuilds } from '../../../stores/builds.ts';
import { go } from '../../../stores/route.ts';
import { changeSession, useSession } from '../../../stores/session.ts';
import { SimulatedBench } from './SimulatedBench.tsx';
import './builds.css';

const noEarlier = 'none';

/** The door: what has been built stands at the side, the next axle is put on the stand here. */
export function BuildsScreen() {
  const technician = useSession((session) => session.technician);
  const builds = useBuilds((seen) => seen.builds) ?? [];
  const here = useBenchSeen((seen) => seen.presence === 'here');
  const [title, setTitle] = useState('');
  const [earlier, setEarlier] = useState(noEarlier);
  const [tried, setTried] = useState(false);
  const named = title.trim() !== '' && technician.trim() !== '';
  const start = async (): Promise<void> => {
    setTried(true);
    if (!named) return;
    const comeback = earlier === noEarlier ? {} : { comebackOf: earlier };
    const notebook = await ask('builds.start', { title: title.trim(), technician: technician.trim(), ...comeback });
    if (notebook !== undefined) go({ at: 'axle', build: notebook.id });
  };
  return (
    <>
      <Stage title="Put an axle on the stand">
        <form
          className="builds__start"
          onSubmit={(event) => {
            event.preventDefault();
            void start();
          }}
        >
          <Field
            label="What is on the stand"
            value={title}
            onChange={setTitle}
            error={tried && title.trim() === '' ? 'Give the build a name you will know it by.' : undefined}
            hint="Job number, axle, side: whatever the work order says."
          />
          <Field
            label="Technician"
            value={technician}
            onChange={(name) => changeSession({ technician: name })}
            error={tried && technician.trim() === '' ? 'Every entry is signed with a name.' : undefined}
          />
          {builds.length === 0 ? undefined : (
            <Pick
              label="Comeback of an earlier build"
              value={earlier}
              onChange={setEarlier}
              options={[
                { value: noEarlier, words: 'No, a first visit' },
                ...builds.map((build) => ({ value: build.id, words: build.title })),
              ]}
            />
          )}
          <button type="submit" className="unseen" tabIndex={-1}>
            Start the build
          </button>
        </form>
        <div className="builds__ways">
          <section>
            <h2>Only a number?</h2>
            <p>Plug in, rock or turn, read. Nothing has to be named first, and it can be kept into a build later.</p>
            <Button keyHint="M" onPress={() => go({ at: 'just-measure' })}>
              Just measure
            </Button>
          </section>
          <SimulatedBench />
        </div>
      </Stage>
      <Words
        title={builds.length === 0 ? 'The first build' : 'Start a build, or go on with one'}
        next={{ words: 'Start the build', run: () => void start(), disabled: !here }}
      >
        <p>A build keeps everything read on one axle, and its certificate. Nothing written in it is lost.</p>
        <p className="quiet">The maker’s manual and local rules go before anything said here.</p>
      </Words>
    </>
  );
}
