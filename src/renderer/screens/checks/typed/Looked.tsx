import { helpPicture } from '../../../../shared/presentation/drawing/help/pictures.ts';
import { pictureOf } from '../../../../shared/presentation/words/help.ts';
import { Drawing } from '../../../instruments/Drawing.tsx';
import type { CheckProps } from '../check/checkProps.ts';
import './looked.css';

/** What is looked at, or how it is taken: the drawing of the help, as large as the fields leave it. */
export function Looked({ check }: Pick<CheckProps, 'check'>) {
  const picture = pictureOf(check);
  return picture === undefined ? undefined : (
    <div className="looked__picture">
      <Drawing scene={helpPicture(picture)} />
    </div>
  );
}
