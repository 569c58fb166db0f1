import { type RefObject, useEffect, useState } from 'react';
import { Button } from './Button.tsx';
import { tablesText } from './tablesText.ts';

/**
 * The tables on the stage for a spreadsheet: by its button, or by Ctrl+C where nothing is marked. It stands there only while there
 * is a table.
 */
export function CopyTables({ room }: { readonly room: RefObject<HTMLElement | null> }) {
  const [any, setAny] = useState(false);
  const [copied, setCopied] = useState<'yes' | 'no'>();
  useEffect(() => {
    const { current } = room;
    if (current === null) return undefined;
    const look = (): void => setAny(current.querySelector('table') !== null);
    look();
    const watching = new MutationObserver(look);
    watching.observe(current, { childList: true, subtree: true });
    const onCopy = (event: ClipboardEvent): void => {
      const text = isMarked() ? '' : tablesText(current);
      if (text === '' || event.clipboardData === null) return;
      event.clipboardData.setData('text/plain', text);
      event.preventDefault();
      setCopied('yes');
    };
    document.addEventListener('copy', onCopy);
    return () => {
      watching.disconnect();
      document.removeEventListener('copy', onCopy);
    };
  }, [room]);
  if (!any) return undefined;
  const copy = (): void => setCopied(document.execCommand('copy') ? 'yes' : 'no');
  return (
    <span className="stage__copy">
      <span role="status" className="quiet">
        {copied === undefined ? '' : { yes: 'Copied', no: 'Mark it and press Ctrl+C' }[copied]}
      </span>
      <Button look="quiet" keyHint="Ctrl C" onPress={copy}>
        Copy the table
      </Button>
    </span>
  );
}

/** Words that somebody has marked, or is writing, go out as marked. */
function isMarked(): boolean {
  const { activeElement } = document;
  if (activeElement instanceof HTMLInputElement || activeElement instanceof HTMLTextAreaElement) return true;
  return document.getSelection()?.isCollapsed === false;
}
