import { useLayoutEffect, useRef, useState, type ReactNode, type RefObject } from 'react';
import { boardFor, heightOf, monthNotches, spread, weekNotches } from './tide-marks.js';

export interface TideMark {
  key: string;
  on: string;
  /** How the mark is cut: a gate is carved deep, the ready day is a turn of rope, the water is today. */
  cut: 'gate' | 'ready' | 'water' | 'plain';
  label: ReactNode;
}

const boardHeight = 520;
const labelGap = 10;
const staffWidth = 58;
const width = 92;

/** A notched board like a tide staff: time rises, today is the water, the gates are marks cut in its edge. */
export function TideBoard({ hauledOutOn, marks }: { hauledOutOn: string; marks: TideMark[] }) {
  const board = boardFor(
    hauledOutOn,
    marks.map((mark) => mark.on),
  );
  const down = (day: string) => (1 - heightOf(board, day)) * boardHeight;
  const ordered = [...marks].sort((a, b) => b.on.localeCompare(a.on));
  const labels = useRef<HTMLOListElement>(null);
  const heights = useHeights(labels, ordered.length);
  const wanted = ordered.map((mark) => down(mark.on) - 12);
  const places = spread(
    wanted,
    heights.map((height) => height + labelGap),
    boardHeight + 2 * labelGap,
  );
  const water = ordered.find((mark) => mark.cut === 'water');
  return (
    <div className="tide">
      <svg
        className="tide-staff"
        viewBox={`0 0 ${width} ${boardHeight}`}
        width={width}
        height={boardHeight}
        aria-hidden="true"
      >
        <path className="tide-wood" d={outline(weekNotches(board).map(down))} />
        <path
          className="tide-grain"
          d={`M12 0C9 140 15 300 11 ${boardHeight}M27 0c4 180 -3 330 1 ${boardHeight}M41 0c-2 150 3 380 0 ${boardHeight}`}
        />
        {monthNotches(board).map((notch) => (
          <g key={notch.on} transform={`translate(0 ${down(notch.on)})`}>
            <path className="tide-month" d={`M0 0H${staffWidth}`} />
            <text x="6" y="-5" className="tide-name">
              {notch.name.slice(0, 3)}
            </text>
          </g>
        ))}
        {water ? <path className="tide-water" d={waves(down(water.on))} /> : null}
        {ordered.map((mark, index) => (
          <g key={mark.key} className={`tide-cut tide-cut-${mark.cut}`}>
            <path className="tide-line" d={`M0 ${down(mark.on)}H${staffWidth + 4}`} />
            <path
              className="tide-lead"
              d={`M${staffWidth + 4} ${down(mark.on)}C${staffWidth + 18} ${down(mark.on)} ${staffWidth + 16} ${(places[index] ?? 0) + 12} ${width} ${(places[index] ?? 0) + 12}`}
            />
          </g>
        ))}
      </svg>
      <ol ref={labels} className="tide-labels" style={{ height: boardHeight + 2 * labelGap }}>
        {ordered.map((mark, index) => (
          <li
            key={mark.key}
            className={`tide-label tide-label-${mark.cut}`}
            style={{ top: places[index] ?? 0 }}
          >
            {mark.label}
          </li>
        ))}
      </ol>
    </div>
  );
}

/** The labels' heights as they are laid out, kept when the page is narrowed or its letters grow. */
function useHeights(list: RefObject<HTMLOListElement | null>, many: number): number[] {
  const [heights, setHeights] = useState<number[]>(() => Array.from({ length: many }, () => 0));
  useLayoutEffect(() => {
    const element = list.current;
    if (!element) return undefined;
    const measure = () => {
      const found = Array.from(element.children, (label) => label.getBoundingClientRect().height);
      setHeights((before) => (before.join() === found.join() ? before : found));
    };
    measure();
    const watch = new ResizeObserver(measure);
    for (const label of element.children) watch.observe(label);
    return () => {
      watch.disconnect();
    };
  }, [list, many]);
  return heights;
}

/** The board's outline: straight at the left, a small notch at each week on the right. */
function outline(notches: number[]): string {
  const edge = notches
    .sort((a, b) => a - b)
    .map(
      (y) => `V${(y - 3).toFixed(1)}L${staffWidth - 5} ${y.toFixed(1)}L${staffWidth} ${(y + 3).toFixed(1)}`,
    )
    .join('');
  return `M0 0H${staffWidth}${edge}V${boardHeight}H0Z`;
}

/** Water from today's mark down, its top edge in low waves. */
function waves(top: number): string {
  const crest = Array.from({ length: 4 }, () => 'q5.5 -5 11 0t11 0').join('');
  return `M0 ${top}${crest}V${boardHeight}H0Z`;
}
