import { daysBetween, sayDay } from '../words/dates.js';
import { useYard } from '../live/yard.js';
import { sayFine } from '../words/lengths.js';
import type { Mark } from './marks.question.js';

const width = 540;
const height = 120;
const left = 54;
/** 1/8 in warns, 1/4 in holds. */
const warn = 25.4 / 8;
const hold = 25.4 / 4;

/** How far a mark has moved from its baseline, day by day, between the lines at which one warns and holds. */
export function Trend({ mark }: { mark: Mark }) {
  const { units } = useYard().me.organisation;
  const kept = mark.readings.filter((one) => !one.struckBy && one.time !== 'AFLOAT');
  const base = kept.filter((one) => one.time === 'AFTER_BLOCKING');
  const [first] = base;
  if (!first || kept.length === base.length) return null;
  const from = base.reduce((sum, one) => sum + one.millimetres, 0) / base.length;
  const moved = kept.map((one) => ({
    ...one,
    moved: one.millimetres - from,
    day: daysBetween(first.on, one.on),
  }));
  const days = [...new Set(moved.map((one) => one.day))].sort((a, b) => a - b);
  const last = Math.max(1, days.at(-1) ?? 1);
  const most = Math.max(hold * 1.15, ...moved.map((one) => Math.abs(one.moved)));
  const x = (day: number): number => left + (day / last) * (width - left - 8);
  const y = (by: number): number => height / 2 - (by / most) * (height / 2 - 8);
  const means = days.map((day) => {
    const own = moved.filter((one) => one.day === day);
    return { day, mean: own.reduce((sum, one) => sum + one.moved, 0) / own.length };
  });
  const end = means.at(-1);
  return (
    <svg
      className="trend"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={`Trend since ${sayDay(first.on)}: moved ${sayFine(end?.mean ?? 0, units)} on the last day read, ${sayFine(mark.millimetresAWeek ?? 0, units)} a week. It warns at 1/8 in and holds at 1/4 in either way.`}
    >
      {[hold, warn, 0, -warn, -hold].map((by) => (
        <g key={by}>
          <line className="trend-limit" x1={left} x2={width} y1={y(by)} y2={y(by)} />
          <text x={0} y={y(by) + 4}>
            {by === 0 ? 'baseline' : Math.abs(by) === hold ? 'hold 1/4' : 'warn 1/8'}
          </text>
        </g>
      ))}
      <polyline
        className="trend-line"
        points={means.map(({ day, mean }) => `${x(day)},${y(mean)}`).join(' ')}
      />
      {moved.map((one) => (
        <circle key={one.id} className="trend-dot" cx={x(one.day)} cy={y(one.moved)} r={2.6} />
      ))}
    </svg>
  );
}
