import { useEffect, useMemo } from 'react';
import type { Answer } from '../../../shared/contract/contract.ts';
import { bytesOf } from '../../stores/saveFile.ts';
import { StateMark } from '../../parts/StateMark.tsx';

/** The window of the desktop program opens no others; a copy can be kept there as well. */
const inBrowser = window.axlewright === undefined;

/** The certificate just written: where it lies, and the file to open or keep. */
export function Issued({ certificate }: { readonly certificate: Answer<'certificate.issue'> }) {
  const url = useMemo(() => URL.createObjectURL(pdfOf(certificate.pdf_base64)), [certificate]);
  useEffect(() => () => URL.revokeObjectURL(url), [url]);
  return (
    <div className="issued" role="status">
      <StateMark shape={certificate.complete ? 'within' : 'not-measured'} size={34} />
      <div className="issued__words">
        <p className="issued__title">{certificate.complete ? 'Issued' : 'Issued as incomplete'}</p>
        <p>
          {certificate.fileName}, in {certificate.folder}.
        </p>
        <p className="quiet digits">SHA-256 {certificate.sha256}</p>
        <p className="issued__links">
          <a className="button button--plain" href={url} download={certificate.fileName}>
            Keep a copy
          </a>
          {inBrowser ? (
            <a className="button button--plain" href={url} target="_blank" rel="noreferrer">
              Open it
            </a>
          ) : undefined}
        </p>
      </div>
    </div>
  );
}

const pdfOf = (base64: string): Blob => new Blob([bytesOf(base64)], { type: 'application/pdf' });
