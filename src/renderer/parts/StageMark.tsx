import './stageMark.css';

interface StageMarkProps {
  /** How many steps are behind, from none to all of them. */
  readonly done: number;
  readonly of: number;
}

/** How far something has come, as blocks one above the other: no verdict, so it has none of their shapes. */
export const StageMark = ({ done, of }: StageMarkProps) => (
  <span className="stage-mark" aria-hidden="true">
    {Array.from({ length: of }, (_, step) => of - step).map((step) => (
      <span key={step} className={step <= done ? 'stage-mark__step stage-mark__step--done' : 'stage-mark__step'} />
    ))}
  </span>
);
