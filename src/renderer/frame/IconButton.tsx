import { Button } from 'react-aria-components';

/** Drawn with one stroke on a field of 24 × 24. */
const icons = {
  back: 'M15 5l-7 7 7 7',
  list: 'M4 6h16M4 12h16M4 18h16',
  undo: 'M8 4L4 8l4 4M4 8h10a6 6 0 0 1 0 12h-3',
  redo: 'M16 4l4 4-4 4M20 8H10a6 6 0 0 0 0 12h3',
} as const;

interface IconButtonProps {
  readonly icon: keyof typeof icons;
  readonly label: string;
  readonly disabled?: boolean;
  readonly onPress: () => void;
}

export function IconButton({ icon, label, disabled = false, onPress }: IconButtonProps) {
  return (
    <Button className="job__icon" aria-label={label} isDisabled={disabled} onPress={onPress}>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path d={icons[icon]} />
      </svg>
    </Button>
  );
}
