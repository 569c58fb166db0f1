import { useEffect, useState } from 'react';
import type { Ask } from '../../../shared/contract/contract.ts';
import { Button } from '../../parts/Button.tsx';
import { ask } from '../../stores/ask.ts';
import { usePaper } from '../../stores/papers.ts';
import { bytesOf } from '../../stores/saveFile.ts';
import { EveryPage } from './EveryPage.tsx';
import { PaperProgress } from './PaperProgress.tsx';
import { printPages } from './printPages.ts';

type Look = Pick<Ask<'certificate.pictures'>, 'build' | 'page' | 'units' | 'everything'>;

/** Pixels across: sharp at the width it is shown in, on a screen with twice the pixels; and on paper, 200 to the inch. */
const pixels = { seen: 744, printed: 1654 };

/** The first page as it would be issued now; every page to be looked at, and to be printed. */
export function Preview({ build, page, units, everything = false }: Look) {
  const first = useFirstPage({ build, page, units, everything });
  const [every, setEvery] = useState<readonly string[]>();
  const paper = usePaper();
  const pagesOf = async (pixelsWide: number): Promise<readonly string[] | undefined> => {
    const what = { build, page, units, everything, pixelsWide, job: paper.job };
    return (await paper.run(() => ask('certificate.pictures', what, () => undefined)))?.pages;
  };
  const look = async (): Promise<void> => setEvery(await pagesOf(pixels.seen));
  const print = async (): Promise<void> => {
    const pages = await pagesOf(pixels.printed);
    if (pages !== undefined) await printPages(pages.map(pictureOf), page);
  };
  const busy = paper.share !== undefined;
  return (
    <figure className="preview">
      {first === undefined ? (
        <div className={`preview__page preview__page--${page}`} aria-hidden="true" />
      ) : (
        <img className="preview__page" src={first.url} alt="First page of the certificate as it would be issued now" />
      )}
      <figcaption className="quiet">{first === undefined ? 'Being drawn …' : pagesWords(first.count)}</figcaption>
      <p className="preview__deeds">
        <Button disabled={busy} onPress={() => void look()}>
          Look at every page
        </Button>
        <Button disabled={busy} onPress={() => void print()}>
          Print
        </Button>
      </p>
      <PaperProgress paper={paper} words="Drawing the pages" />
      {every === undefined ? undefined : <EveryPage pages={every.map(pictureOf)} onClose={() => setEvery(undefined)} />}
    </figure>
  );
}

function useFirstPage({ build, page, units, everything = false }: Look) {
  const [first, setFirst] = useState<{ readonly url: string; readonly count: number }>();
  useEffect(() => {
    let there = true;
    const what = { build, page, units, everything, pixelsWide: pixels.seen, first: true };
    // A page that cannot be drawn is told when it is issued; here its place stays empty.
    void ask('certificate.pictures', what, () => undefined).then((answer) => {
      const picture = answer?.pages[0];
      if (there && answer !== undefined && picture !== undefined)
        setFirst({ url: URL.createObjectURL(pictureOf(picture)), count: answer.count });
    });
    return () => {
      there = false;
    };
  }, [build, page, units, everything]);
  useEffect(() => {
    if (first !== undefined) return () => URL.revokeObjectURL(first.url);
    return undefined;
  }, [first]);
  return first;
}

const pagesWords = (count: number): string => (count === 1 ? 'Page 1, the only one' : `Page 1 of ${count}`);

const pictureOf = (base64: string): Blob => new Blob([bytesOf(base64)], { type: 'image/png' });
