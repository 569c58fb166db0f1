/** Two teeth seen from the side, as they differ: our own drawing, not to scale. */
export const CutPicture = () => (
  <svg
    className="cut__picture"
    viewBox="0 0 640 150"
    role="img"
    aria-label="Left a tooth that is taller at the heel, as face-milled; right one of equal height, as face-hobbed"
  >
    <Tooth x={20} crownAtToe={62} words="face-milled: taller at the heel" />
    <Tooth x={340} crownAtToe={34} words="face-hobbed: equal height" />
  </svg>
);

function Tooth({ x, crownAtToe, words }: { readonly x: number; readonly crownAtToe: number; readonly words: string }) {
  return (
    <g transform={`translate(${x} 0)`}>
      <path className="cut__tooth" d={`M20 96 L20 ${crownAtToe} L260 34 L260 96 Z`} />
      <text className="cut__word" x={20} y={116}>
        toe
      </text>
      <text className="cut__word" x={260} y={116} textAnchor="end">
        heel
      </text>
      <text className="cut__word" x={140} y={142} textAnchor="middle">
        {words}
      </text>
    </g>
  );
}
