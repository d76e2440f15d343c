interface Side {
  side: 'PORT' | 'STARBOARD';
  length: number;
  height: number;
  planks: { name: string; left: number; right: number; low: number; high: number }[];
  frames: { number: number; x: number; head: number }[];
}

/** One side of her shell, unrolled flat and to scale, forward to the left. */
export function DrawnShell({ side }: { side: Side }) {
  const { length, height, planks, frames } = side;
  const name = side.side === 'PORT' ? 'Port' : 'Starboard';
  const y = (up: number): number => height - up;
  return (
    <figure className="drawn-shell">
      <svg
        viewBox={`-400 -100 ${length + 800} ${height + 500}`}
        role="img"
        aria-label={`${name} side: ${planks.length} planks over ${frames.length} frames`}
      >
        {frames.map(({ number, x, head }) => (
          <g key={number}>
            <line className="drawn-frame" x1={x} x2={x} y1={y(0)} y2={y(head)} />
            {number % 5 === 0 || number === 1 ? (
              <text x={x} y={y(0) + 300} textAnchor="middle" fontSize="240">
                {number}
              </text>
            ) : null}
          </g>
        ))}
        {planks.map(({ name: plank, left, right, low, high }) => (
          <rect
            key={plank}
            className="drawn-plank"
            x={left}
            y={y(high)}
            width={right - left}
            height={high - low}
          >
            <title>{plank}</title>
          </rect>
        ))}
      </svg>
      <figcaption>{name}, forward to the left</figcaption>
    </figure>
  );
}
