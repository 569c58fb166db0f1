import { useEffect, useMemo } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { Button } from '../../parts/Button.tsx';

interface EveryPageProps {
  readonly pages: readonly Blob[];
  readonly onClose: () => void;
}

/** The pages one below the other, to be read through before anything is issued. */
export function EveryPage({ pages, onClose }: EveryPageProps) {
  const urls = useMemo(() => pages.map((page) => URL.createObjectURL(page)), [pages]);
  useEffect(() => () => urls.forEach((url) => URL.revokeObjectURL(url)), [urls]);
  return (
    <ModalOverlay className="sheet-over" isOpen onOpenChange={(open) => (open ? undefined : onClose())} isDismissable>
      <Modal className="sheet">
        <Dialog className="sheet__dialog">
          <Heading slot="title" className="sheet__title">
            {pages.length === 1 ? 'The page' : `The ${pages.length} pages`}
          </Heading>
          {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- it scrolls, and must be reached by key to do so */}
          <div className="pages" role="region" aria-label="Pages" tabIndex={0}>
            {urls.map((url, index) => (
              <img key={url} src={url} alt={`Page ${index + 1}`} />
            ))}
          </div>
          <footer className="sheet__foot">
            <Button look="next" onPress={onClose}>
              Close
            </Button>
          </footer>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
