import { useState } from 'react';
import { Button as Pressable, Dialog, DialogTrigger, Heading, Popover } from 'react-aria-components';
import { Button } from '../parts/Button.tsx';
import { Field } from '../parts/Field.tsx';
import { Form } from '../parts/Form.tsx';
import { initialsOf } from '../words/names.ts';
import { useSession, workAs } from '../stores/session.ts';
import '../parts/pick.css';
import '../parts/reveal.css';

interface WhoProps {
  /** Who signs where nobody was chosen at this bench yet. */
  readonly otherwise: string;
}

/** Who is at the stand: one tap hands over to somebody else. Each entry is signed with the name that stands here. */
export function Who({ otherwise }: WhoProps) {
  const technician = useSession((session) => session.technician).trim() || otherwise;
  return (
    <DialogTrigger>
      <Pressable className="job__icon job__who" aria-label={`${initialsOf(technician)}. At the stand: ${technician}`}>
        <span>{initialsOf(technician)}</span>
      </Pressable>
      <Popover className="pick__popover reveal__popover" placement="bottom end">
        <Dialog className="reveal">
          {({ close }) => (
            <>
              <Heading slot="title" className="reveal__title">
                Who is at the stand?
              </Heading>
              <p>{technician} signs what is written now.</p>
              <Others now={technician} onChosen={close} />
            </>
          )}
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}

function Others({ now, onChosen }: { readonly now: string; readonly onChosen: () => void }) {
  const others = useSession((session) => session.technicians).filter((name) => name !== now);
  const [name, setName] = useState('');
  const take = (chosen: string): void => {
    workAs(chosen);
    onChosen();
  };
  return (
    <>
      {others.map((one) => (
        <Button key={one} onPress={() => take(one)}>
          {one}
        </Button>
      ))}
      <Form
        className="reveal__form"
        words="Take this name"
        submit={() => (name.trim() === '' ? undefined : take(name))}
      >
        <Field label="Somebody else" value={name} onChange={setName} />
      </Form>
      <Button onPress={() => take(name)} disabled={name.trim() === ''}>
        Hand over
      </Button>
    </>
  );
}
