/** Tally strokes in fives, as they are chalked on a frame: inked for what is passed, faint for what is to come. */
export function Strokes({ many, passed }: { many: number; passed: number }) {
  const shown = Math.min(many, 60);
  const width = Math.ceil(shown / 5) * 30;
  return (
    <svg className="strokes" width={width} height="18" viewBox={`0 0 ${width} 18`} aria-hidden="true">
      {Array.from({ length: shown }, (_, index) => (
        <path
          key={index}
          d={strokeAt(index)}
          className={index < passed ? 'stroke stroke-passed' : 'stroke'}
        />
      ))}
    </svg>
  );
}

/** Four upright strokes, the fifth across them. */
function strokeAt(index: number): string {
  const left = Math.floor(index / 5) * 30;
  const place = index % 5;
  return place === 4
    ? `M${left + 1} 14L${left + 23} 4`
    : `M${left + 4 + place * 5.5} 2L${left + 3 + place * 5.5} 16`;
}
