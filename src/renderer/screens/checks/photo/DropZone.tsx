import { type DragEvent, type ReactNode, useState } from 'react';

interface DropZoneProps {
  readonly onFile: (file: Blob) => void;
  readonly children: ReactNode;
}

/** A place files can be dropped on; its frame says so while one hangs over it. */
export function DropZone({ onFile, children }: DropZoneProps) {
  const [over, setOver] = useState(false);
  const dropped = (event: DragEvent): void => {
    event.preventDefault();
    setOver(false);
    const file = [...event.dataTransfer.files][0];
    if (file !== undefined) onFile(file);
  };
  return (
    <div
      className={`sources${over ? ' sources--over' : ''}`}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={dropped}
    >
      {children}
    </div>
  );
}
