import { Button } from '../parts/Button.tsx';
import { forgetUndone, redo, undo, useUndone } from '../stores/notebook.ts';
import './problemLine.css';

/** What undo struck through or brought back, and the way back; gone with the next thing that is done. */
export function UndoneLine() {
  const said = useUndone((seen) => seen.said);
  if (said === undefined) return undefined;
  return (
    <div className="problem-line problem-line--said" role="status">
      <p className="problem-line__words">
        <strong>{said.struck ? 'Struck through' : 'Brought back'}:</strong> {said.words}.
        {said.struck ? ' It stays readable in the notebook.' : ''}
      </p>
      {said.struck ? (
        <Button onPress={() => void redo()}>Bring it back</Button>
      ) : (
        <Button onPress={() => void undo()}>Strike it again</Button>
      )}
      <Button look="quiet" onPress={forgetUndone}>
        Close
      </Button>
    </div>
  );
}
