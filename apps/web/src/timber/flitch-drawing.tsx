import type { Flitch, LayUp } from './timber.question.js';

type Placed = LayUp['placed'][number];

/** A flitch as it lies on the table, to scale, with the pieces that are to be sawn from it. */
export function FlitchDrawing({ flitch, placed }: { flitch: Flitch; placed: Placed[] }) {
  const { outline, grain, defects } = flitch.drawing;
  const box = boxOf(outline);
  const pad = 40;
  const words = placed.length
    ? `${flitch.mark} with ${placed.map((one) => one.name).join(', ')} laid on it`
    : `${flitch.mark}, nothing laid on it`;
  return (
    <svg
      className="flitch-drawing"
      role="img"
      aria-label={words}
      viewBox={`${box.left - pad} ${-box.high - pad} ${box.right - box.left + 2 * pad} ${box.high - box.low + 2 * pad}`}
    >
      <g transform="scale(1 -1)">
        <polygon className="bark" points={outline} />
        <polyline className="grain" points={grain} />
        {defects.map((defect) => (
          <polygon key={defect} className="defect" points={defect} />
        ))}
        {placed.map((one) => (
          <polygon key={one.piece} className="laid" points={one.points} />
        ))}
      </g>
      {placed.map((one, index) => {
        const middle = middleOf(one.points);
        return (
          <text key={one.piece} x={middle.x} y={-middle.y} className="laid-number">
            {index + 1}
          </text>
        );
      })}
    </svg>
  );
}

interface Point {
  x: number;
  y: number;
}

const read = (points: string): Point[] =>
  points.split(' ').map((pair) => {
    const [x = 0, y = 0] = pair.split(',').map(Number);
    return { x, y };
  });

export function boxOf(points: string): { left: number; right: number; low: number; high: number } {
  const all = read(points);
  const xs = all.map((point) => point.x);
  const ys = all.map((point) => point.y);
  return { left: Math.min(...xs), right: Math.max(...xs), low: Math.min(...ys), high: Math.max(...ys) };
}

function middleOf(points: string): Point {
  const all = read(points);
  // A bent piece's middle may lie outside it; halfway between the two edges at half length does not.
  const quarter = all[Math.floor(all.length / 4)] ?? { x: 0, y: 0 };
  const opposite = all[Math.floor((3 * all.length) / 4)] ?? quarter;
  return { x: (quarter.x + opposite.x) / 2, y: (quarter.y + opposite.y) / 2 };
}
