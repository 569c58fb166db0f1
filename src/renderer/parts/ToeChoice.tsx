import { changeSession, useSession } from '../stores/session.ts';
import { Choice } from './Choice.tsx';

/** Where the toe lies for whoever stands at the axle; every picture of a flank turns with it. */
export const ToeChoice = () => (
  <Choice
    bare
    label="Where the toe lies"
    value={useSession((session) => session.toeAt)}
    onChange={(toeAt) => changeSession({ toeAt })}
    options={[
      { value: 'left', words: 'Toe left' },
      { value: 'right', words: 'Toe right' },
    ]}
  />
);
