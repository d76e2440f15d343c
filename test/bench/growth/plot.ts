/** A line of the plot: its points as [tasks, seconds]. */
export interface Series {
  name: string;
  points: [number, number][];
}

const WIDTH = 720;
const HEIGHT = 420;
const LEFT = 70;
const RIGHT = 20;
const TOP = 50;
const BOTTOM = 55;

/** Told apart by colour, dash and mark; the colours also by their lightness. */
const LOOKS = [
  { colour: '#0b4f8a', dash: '', mark: 'circle' },
  { colour: '#d98200', dash: '7 4', mark: 'square' },
] as const;

/** Both axes in powers of ten, so that a straight line of slope one is growth in proportion. */
export function plot(title: string, series: Series[]): string {
  const all = series.flatMap(({ points }) => points);
  const x = axis(
    all.map(([tasks]) => tasks),
    LEFT,
    WIDTH - RIGHT,
  );
  const y = axis(
    all.map(([, seconds]) => seconds),
    HEIGHT - BOTTOM,
    TOP,
  );
  const grid = [
    ...x.ticks.map((tick) => {
      const at = x.at(tick);
      return `<line x1="${at}" y1="${TOP}" x2="${at}" y2="${HEIGHT - BOTTOM}" stroke="#ddd"/>${text(at, HEIGHT - BOTTOM + 20, tick.toLocaleString('en'), 'middle')}`;
    }),
    ...y.ticks.map((tick) => {
      const at = y.at(tick);
      return `<line x1="${LEFT}" y1="${at}" x2="${WIDTH - RIGHT}" y2="${at}" stroke="#ddd"/>${text(LEFT - 8, at + 4, `${tick} s`, 'end')}`;
    }),
  ];
  const lines = series.map(({ name, points }, k) => {
    const { colour, dash, mark } = LOOKS[k % LOOKS.length];
    const placed = points.map(([tasks, seconds]) => [x.at(tasks), y.at(seconds)]);
    const marks = placed.map(([cx, cy]) =>
      mark === 'circle'
        ? `<circle cx="${cx}" cy="${cy}" r="4" fill="${colour}"/>`
        : `<rect x="${cx - 4}" y="${cy - 4}" width="8" height="8" fill="${colour}"/>`,
    );
    const key = `<line x1="${LEFT + 10}" y1="${TOP + 14 + 20 * k}" x2="${LEFT + 45}" y2="${TOP + 14 + 20 * k}" stroke="${colour}" stroke-width="2" stroke-dasharray="${dash}"/>`;
    return `<polyline points="${placed.map((one) => one.join(',')).join(' ')}" fill="none" stroke="${colour}" stroke-width="2" stroke-dasharray="${dash}"/>${marks.join('')}${key}${text(LEFT + 52, TOP + 18 + 20 * k, name, 'start')}`;
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="sans-serif" font-size="13">`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="#fff"/>`,
    text(WIDTH / 2, 26, title, 'middle'),
    ...grid,
    text((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 10, 'tasks', 'middle'),
    ...lines,
    '</svg>',
    '',
  ].join('\n');
}

function text(x: number, y: number, says: string, anchor: 'start' | 'middle' | 'end'): string {
  return `<text x="${x}" y="${y}" text-anchor="${anchor}" fill="#222">${says}</text>`;
}

/** A scale of powers of ten that holds all values, from one edge to the other. */
function axis(values: number[], from: number, to: number) {
  const low = Math.floor(Math.log10(Math.min(...values)));
  const high = Math.max(low + 1, Math.ceil(Math.log10(Math.max(...values))));
  return {
    ticks: Array.from({ length: high - low + 1 }, (_, k) => Number((10 ** (low + k)).toPrecision(1))),
    at: (value: number) =>
      Math.round(10 * (from + ((Math.log10(value) - low) / (high - low)) * (to - from))) / 10,
  };
}
