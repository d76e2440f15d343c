/** A QR code as its rows of 1 and 0, drawn as one path with the four modules of white around it that readers need. */
export function QrSquare({ rows, title }: { rows: string[]; title: string }) {
  const size = rows.length + 8;
  return (
    <svg
      className="qr"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={title}
      shapeRendering="crispEdges"
    >
      <rect width={size} height={size} fill="#fff" />
      <path d={pathOf(rows)} fill="#000" />
    </svg>
  );
}

function pathOf(rows: string[]): string {
  return rows
    .flatMap((row, y) =>
      [...row.matchAll(/1+/g)].map(
        ({ index, 0: run }) => `M${index + 4} ${y + 4}h${run.length}v1h-${run.length}z`,
      ),
    )
    .join('');
}
