import { ok } from '../../../../shared/basics/result.ts';
import type { Build } from '../../../../shared/job/records/build.ts';
import { noteTopics } from '../../../../shared/job/records/notebook.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { type DraftRead, type FieldErrors, wrong } from '../../../parts/draft.ts';
import { Field } from '../../../parts/Field.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { useDraft, useHeld } from '../../../parts/useDraft.ts';
import { Words } from '../../../parts/Words.tsx';
import { writeDeed } from '../../../stores/notebook.ts';
import { timeWords } from '../../../words/days.ts';
import { NotebookLines } from './NotebookLines.tsx';
import './notes.css';

type Topic = (typeof noteTopics)[number];

const topicWords: Readonly<Record<Topic, string>> = {
  complaint: 'Complaint',
  noise: 'Noise',
  'road-test': 'Road test',
  oil: 'Oil',
  odometer: 'Odometer',
  customer: 'Customer',
  plate: 'Number plate',
  note: 'Note',
};

const hints: Readonly<Record<Topic, string>> = {
  complaint: 'What the customer says, in their words.',
  noise: 'At which speed, and under drive, at a steady pace, or on coast.',
  'road-test': 'After the build: route, noise, heat, leaks.',
  oil: 'Kind and quantity, and any additive.',
  odometer: 'The reading, with its unit.',
  customer: 'Name or job number.',
  plate: 'As it stands on the vehicle. A comeback is found by it.',
  note: 'Anything the next pair of eyes should know.',
};

interface NoteDraft {
  readonly topic: Topic;
  readonly text: string;
}

const readNote = ({ topic, text }: NoteDraft): DraftRead<NoteDraft, FieldErrors<'text'>> =>
  text.trim() === '' ? wrong({ text: 'Write it down first.' }) : ok({ topic, text: text.trim() });

function useNoteForm() {
  const held = useHeld<NoteDraft>(() => ({ topic: 'complaint', text: '' }));
  return useDraft(held, {
    read: readNote,
    keep: async (note) => {
      const written = await writeDeed({ kind: 'noted', ...note });
      if (written) held.change({ text: '' });
      return written;
    },
  });
}

/** What no gauge reads: the complaint and the noise before, road test and oil after. */
export function NotesScreen({ build }: { readonly build: Build }) {
  const { draft, change, errors, submit } = useNoteForm();
  const { topic, text } = draft;
  return (
    <>
      <Stage title="Notes" aside={<NotebookLines />}>
        <div className="notes">
          <NoteFields draft={draft} error={errors.text} onChange={change} />
          <Written build={build} />
        </div>
      </Stage>
      <Words
        title={text.trim() === '' ? 'In your words' : `${topicWords[topic]}, ready to keep`}
        next={{
          words: `Keep the ${topicWords[topic].toLowerCase()}`,
          run: submit,
          disabled: text.trim() === '',
        }}
      >
        <p>Notes stand on the certificate with their date and who wrote them.</p>
      </Words>
    </>
  );
}

interface NoteFieldsProps {
  readonly draft: NoteDraft;
  readonly error: string | undefined;
  readonly onChange: (change: Partial<NoteDraft>) => void;
}

const NoteFields = ({ draft: { topic, text }, error, onChange }: NoteFieldsProps) => (
  <>
    <Choice
      label="About"
      value={topic}
      onChange={(about) => onChange({ topic: about })}
      options={noteTopics.map((one) => ({ value: one, words: topicWords[one] }))}
    />
    <Field
      label={topicWords[topic]}
      lines={3}
      value={text}
      error={error}
      onChange={(written) => onChange({ text: written })}
      hint={hints[topic]}
    />
  </>
);

function Written({ build }: { readonly build: Build }) {
  if (build.notes.length === 0)
    return <p className="quiet">Nothing has been noted yet. What is kept is listed here.</p>;
  return (
    <ul className="notes__written">
      {build.notes.toReversed().map((note) => (
        <li key={`${note.at} ${note.text}`}>
          <strong>{topicWords[note.topic]}</strong>{' '}
          <span className="quiet">
            {timeWords(note.at)}, {note.by}
          </span>
          <p>{note.text}</p>
        </li>
      ))}
    </ul>
  );
}
