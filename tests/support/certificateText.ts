import { certificateContent } from '../../src/shared/presentation/certificate/content.ts';
import { certificateBlocks } from '../../src/shared/presentation/certificate/telling.ts';
import type { Notebook } from '../../src/shared/job/records/notebook.ts';

const signed = { sha256: '', bench: 'Test bench', fingerprint: '', revision: 1 };

/** Everything the certificate of a notebook says, as one text to look for words in. */
export const certificateText = (notebook: Notebook): string =>
  JSON.stringify(certificateBlocks(certificateContent(notebook), { units: 'metric', page: 'a4' }, signed));
