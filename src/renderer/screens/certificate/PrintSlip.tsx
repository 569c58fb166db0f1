import type { Ask } from '../../../shared/contract/contract.ts';
import { Button } from '../../parts/Button.tsx';
import { ask } from '../../stores/ask.ts';
import { usePaper } from '../../stores/papers.ts';
import { bytesOf } from '../../stores/saveFile.ts';
import { useSession } from '../../stores/session.ts';
import { printPages } from './printPages.ts';

interface PrintSlipProps {
  readonly build: string;
  readonly slip: NonNullable<Ask<'certificate.pictures'>['slip']>;
  readonly children: string;
}

/** 200 to the inch on A4. */
const pixelsWide = 1654;

/** Hands a small paper of the build to the printer. */
export function PrintSlip({ build, slip, children }: PrintSlipProps) {
  const { page, units } = useSession();
  const paper = usePaper();
  const print = async (): Promise<void> => {
    const what = { build, slip, page, units, pixelsWide, job: paper.job };
    const drawn = await paper.run(() => ask('certificate.pictures', what));
    if (drawn === undefined) return;
    const pages = drawn.pages.map((one) => new Blob([bytesOf(one)], { type: 'image/png' }));
    await printPages(pages, page);
  };
  return (
    <Button disabled={paper.share !== undefined} onPress={() => void print()}>
      {children}
    </Button>
  );
}
