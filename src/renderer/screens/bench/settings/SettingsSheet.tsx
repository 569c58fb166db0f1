import { Dialog, Heading, Modal, ModalOverlay, Switch } from 'react-aria-components';
import { commandsNow, pedalAgain, pedalNext } from '../../../commands/registry.ts';
import { giveCue } from '../../../cues/give.ts';
import { cues } from '../../../cues/cue.ts';
import { useHasVoice } from '../../../cues/speech.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { asWritten, Suggest } from '../../../parts/Suggest.tsx';
import { keyWords } from '../../../parts/Words.tsx';
import { useBenchSeen } from '../../../stores/bench.ts';
import { changeSession, useSession } from '../../../stores/session.ts';
import { About } from './About.tsx';
import { Archive } from './Archive.tsx';
import { EndBench } from './EndBench.tsx';
import { Backups } from './Backups.tsx';
import { setSettingsOpen, useSettingsOpen } from './open.ts';
import { OnCertificates } from './OnCertificates.tsx';
import { PedalKey } from './PedalKey.tsx';
import { SaveReport } from './SaveReport.tsx';
import './settings.css';

/** What belongs to the person at the stand: units, theme, cues, the pedal, and the keys there are. */
export function SettingsSheet() {
  const open = useSettingsOpen((sheet) => sheet.open);
  return (
    <ModalOverlay className="sheet-over" isOpen={open} onOpenChange={setSettingsOpen} isDismissable>
      <Modal className="sheet">
        <Dialog className="sheet__dialog">
          <Heading slot="title" className="sheet__title">
            Settings
          </Heading>
          <div className="sheet__columns">
            <Looks />
            <Cues />
            <Backups />
            <Archive />
            <OnCertificates />
            <Keys />
            <SaveReport />
            <About />
          </div>
          <footer className="sheet__foot">
            <AboutWords />
            <EndBench />
            <Button look="next" onPress={() => setSettingsOpen(false)}>
              Close
            </Button>
          </footer>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function Looks() {
  const session = useSession();
  return (
    <section className="sheet__part">
      <Suggest
        label="Technician"
        value={session.technician}
        options={asWritten(session.technicians)}
        onChange={(technician) => changeSession({ technician })}
      />
      <Choice
        label="Units"
        value={session.units}
        onChange={(units) => changeSession({ units })}
        options={[
          { value: 'metric', words: 'Metric' },
          { value: 'inch', words: 'Inch' },
        ]}
      />
      <Choice
        label="Light"
        value={session.theme}
        onChange={(theme) => changeSession({ theme })}
        options={[
          { value: 'light', words: 'Light' },
          { value: 'dark', words: 'Dark' },
          { value: 'system', words: 'As the machine' },
        ]}
      />
    </section>
  );
}

function Cues() {
  const session = useSession();
  const hasVoice = useHasVoice();
  const each = [
    { field: 'sound', words: 'Sounds', there: true },
    { field: 'pictureCues', words: 'Large picture for each cue', there: true },
    { field: 'spoken', words: 'Numbers spoken aloud', there: hasVoice },
  ] as const;
  return (
    <section className="sheet__part">
      <h3>Cues</h3>
      {each.map(({ field, words, there }) => (
        <Switch
          key={field}
          className="switch"
          isSelected={session[field] && there}
          isDisabled={!there}
          onChange={(on) => changeSession({ [field]: on })}
        >
          <span className="switch__track" aria-hidden="true" />
          {words}
        </Switch>
      ))}
      {hasVoice ? undefined : <p className="quiet">This machine has no voice to speak with.</p>}
      <p className="quiet">Listen to each:</p>
      <div className="sheet__try">
        {cues.map((cue) => (
          <Button key={cue} onPress={() => giveCue(cue, cueWords[cue], cueWords[cue])}>
            {cueWords[cue]}
          </Button>
        ))}
      </div>
    </section>
  );
}

const cueWords = { rest: 'Rest', rock: 'Rock', done: 'Done', outside: 'Outside', refused: 'Refused' } as const;

function Keys() {
  const pedal = useSession((session) => session.pedalKey);
  const names: Readonly<Record<string, string>> = { [pedalNext]: `${keyWords(pedal)}, Space`, [pedalAgain]: 'PgUp' };
  return (
    <section className="sheet__part">
      <h3>Foot pedal and keys</h3>
      <PedalKey />
      <table className="sheet__keys">
        <tbody>
          {commandsNow().map((command) => (
            <tr key={command.key}>
              <th scope="row">
                <kbd>{names[command.key] ?? command.key}</kbd>
              </th>
              <td>{command.title}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function AboutWords() {
  const about = useBenchSeen((seen) => seen.about);
  return (
    <p className="quiet sheet__about">
      {about === undefined
        ? 'The bench cannot be reached.'
        : `Axlewright ${about.version}. Records in ${about.dataFolder}.`}
    </p>
  );
}
