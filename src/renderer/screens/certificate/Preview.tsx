import { useEffect, useState } from 'react';
import type { Ask } from '../../../shared/contract/contract.ts';
import { ask } from '../../stores/ask.ts';

/** The first page as it would be issued now; an empty sheet until it is drawn. */
export function Preview({ build, page, units, everything }: Required<Ask<'certificate.preview'>>) {
  const [picture, setPicture] = useState<string>();
  useEffect(() => {
    let wanted = true;
    void ask('certificate.preview', { build, page, units, everything }).then((answer) => {
      if (wanted) setPicture(answer?.png_base64);
    });
    return () => {
      wanted = false;
    };
  }, [build, page, units, everything]);
  return (
    <figure className={`preview preview--${page}`}>
      {picture === undefined ? undefined : (
        <img className="preview__page" src={`data:image/png;base64,${picture}`} alt="Its first page" />
      )}
    </figure>
  );
}
