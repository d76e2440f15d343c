import { MOMENTS, type Trial } from './trial.js';

export interface Held {
  /** Share of the dates that held, and the standard error of having tried so many yards. */
  share: number;
  error: number;
}

/** What forecasts made at one moment were worth. */
export interface Measured {
  name: string;
  trials: number;
  p50: Held;
  p80: Held;
  p95: Held;
  /** Mean days from the moment to the 50 and the 80 % date, and to when she was truly ready. */
  days: { p50: number; p80: number; truly: number };
  /** Mean distance in days between the 50 % date and the truth. */
  off: number;
}

export function measure(trials: readonly Trial[]): Measured[] {
  const all = MOMENTS.map((name, moment) =>
    one(
      name,
      trials.filter((trial) => trial.moment === moment),
    ),
  );
  return [...all, one('all three', trials)];
}

function one(name: string, trials: readonly Trial[]): Measured {
  const mean = (of: (trial: Trial) => number) =>
    trials.reduce((sum, trial) => sum + of(trial), 0) / Math.max(1, trials.length);
  const held = (of: (trial: Trial) => boolean): Held => {
    const share = mean((trial) => Number(of(trial)));
    // Forecasts of one yard are not independent of each other: yards are counted, not forecasts.
    const yards = new Set(trials.map(({ seed }) => seed)).size;
    return { share, error: Math.sqrt((share * (1 - share)) / Math.max(1, yards)) };
  };
  return {
    name,
    trials: trials.length,
    p50: held((trial) => trial.held.p50),
    p80: held((trial) => trial.held.p80),
    p95: held((trial) => trial.held.p95),
    days: {
      p50: mean(({ days }) => days.p50),
      p80: mean(({ days }) => days.p80),
      truly: mean(({ days }) => days.truly),
    },
    off: mean(({ days }) => Math.abs(days.p50 - days.truly)),
  };
}

const percent = ({ share, error }: Held) => `${(100 * share).toFixed(1)} ± ${(100 * error).toFixed(1)}`;

export function table(measured: readonly Measured[]): string {
  const rows = measured.map(({ name, trials, p50, p80, p95, days, off }) => [
    name,
    String(trials),
    percent(p50),
    percent(p80),
    percent(p95),
    days.p50.toFixed(1),
    days.p80.toFixed(1),
    days.truly.toFixed(1),
    off.toFixed(1),
  ]);
  const head = [
    'forecast made',
    'forecasts',
    '50 % date held, %',
    '80 % date held, %',
    '95 % date held, %',
    'days to the 50 % date',
    'to the 80 % date',
    'truly',
    '50 % date off by',
  ];
  const widths = head.map((cell, k) => Math.max(cell.length, ...rows.map((row) => row[k].length)));
  const line = (cells: string[], fill = ' ') =>
    `| ${cells.map((cell, k) => cell.padEnd(widths[k], fill)).join(' | ')} |`;
  return [
    line(head),
    line(
      head.map(() => '-'),
      '-',
    ),
    ...rows.map((row) => line(row)),
  ].join('\n');
}

const SIZE = 360;
const LEFT = 60;
const TOP = 40;
const LOOKS = [
  { colour: '#0b4f8a', dash: '' },
  { colour: '#b35c00', dash: '7 4' },
  { colour: '#444444', dash: '2 4' },
] as const;

/** How often she was ready by the date said with p %, over p: on the diagonal each date means what it says. */
export function plot(trials: readonly Trial[]): string {
  const x = (p: number) => LEFT + p * SIZE;
  const y = (p: number) => TOP + (1 - p) * SIZE;
  const steps = Array.from({ length: 21 }, (_, k) => k / 20);
  const text = (at: number, up: number, words: string, anchor: string) =>
    `<text x="${at}" y="${up}" font-size="13" text-anchor="${anchor}">${words}</text>`;
  const grid = [0, 0.2, 0.4, 0.6, 0.8, 1].flatMap((p) => [
    `<line x1="${x(p)}" y1="${y(0)}" x2="${x(p)}" y2="${y(1)}" stroke="#ddd"/>`,
    `<line x1="${x(0)}" y1="${y(p)}" x2="${x(1)}" y2="${y(p)}" stroke="#ddd"/>`,
    text(x(p), y(0) + 20, `${Math.round(100 * p)} %`, 'middle'),
    text(x(0) - 8, y(p) + 4, `${Math.round(100 * p)} %`, 'end'),
  ]);
  const lines = MOMENTS.map((name, moment) => {
    const ranks = trials.filter((trial) => trial.moment === moment).map(({ rank }) => rank);
    const points = steps.map((p) => {
      const held = ranks.filter((rank) => rank <= p).length / Math.max(1, ranks.length);
      return `${x(p).toFixed(1)},${y(held).toFixed(1)}`;
    });
    const { colour, dash } = LOOKS[moment];
    const key = TOP + 20 + 20 * moment;
    return [
      `<polyline points="${points.join(' ')}" fill="none" stroke="${colour}" stroke-width="2" stroke-dasharray="${dash}"/>`,
      `<line x1="${LEFT + 15}" y1="${key}" x2="${LEFT + 45}" y2="${key}" stroke="${colour}" stroke-width="2" stroke-dasharray="${dash}"/>`,
      text(LEFT + 52, key + 4, name, 'start'),
    ].join('\n');
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${LEFT + SIZE + 40}" height="${TOP + SIZE + 60}" font-family="serif" role="img">`,
    '<title>How often she was ready by the date said with so many per cent</title>',
    '<rect width="100%" height="100%" fill="#fff"/>',
    text(LEFT, 24, 'share of yards ready by the date', 'start'),
    ...grid,
    `<line x1="${x(0)}" y1="${y(0)}" x2="${x(1)}" y2="${y(1)}" stroke="#999"/>`,
    ...lines,
    text(x(0.5), y(0) + 44, 'the forecast’s chance of that date', 'middle'),
    '</svg>',
    '',
  ].join('\n');
}
