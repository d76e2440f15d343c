import { useId, useRef, useState, type KeyboardEvent } from 'react';
import { useYard } from '../live/yard.js';
import { capital } from '../words/amounts.js';
import { sayCourse, stateIn, stateWords, workSpan, type Week } from './at-week.js';
import { drawSide, nextCell, type Cell } from './drawing.js';
import type { ElementState, ShellSide } from './hull.question.js';
import { Patterns } from './patterns.js';

interface ShellSideProps {
  side: ShellSide;
  week: Week;
  whole: boolean;
  inside: boolean;
  chosen: string | null;
  choose: (key: string) => void;
}

/** One side of her, drawn; arrow keys go from piece to piece. */
export function ShellSideMap({ side, week, whole, inside, chosen, choose }: ShellSideProps) {
  const { timeZone, today } = useYard();
  const map = useRef<SVGSVGElement>(null);
  const patterns = useId().replace(/[^a-z0-9]/gi, '');
  const span = whole ? { from: -300, to: side.length + 300 } : workSpan(side);
  const drawing = drawSide(side, inside ? side.ceiling : side.planks, span);
  const cells = [...drawing.planks, ...drawing.frames];
  const [reached, setReached] = useState<string | null>(null);
  const first = cells.find((cell) => cell.standing) ?? cells[0];
  const stop = cells.some((cell) => cell.key === reached) ? reached : (first?.key ?? null);

  function steer(event: KeyboardEvent, from: Cell) {
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      choose(from.key);
      return;
    }
    const next = nextCell(cells, from, event.key);
    if (!next) return;
    event.preventDefault();
    setReached(next.key);
    map.current?.querySelector<SVGGElement>(`[data-cell="${next.key}"]`)?.focus();
  }

  const draw = (cell: Cell, kind: 'plank' | 'frame') => {
    const state = stateIn(cell.standing, week, timeZone);
    const says =
      week === null
        ? `${cell.name}: ${sayCourse(cell.standing, today, timeZone)}`
        : `${cell.name}: ${stateWords[state]}`;
    return (
      <g
        key={cell.key}
        role="gridcell"
        data-cell={cell.key}
        tabIndex={cell.key === stop ? 0 : -1}
        aria-selected={cell.key === chosen}
        aria-label={says}
        className={`cell cell-${kind} cell-${state.toLowerCase()}${cell.standing ? ' cell-ours' : ''}`}
        onFocus={() => {
          setReached(cell.key);
        }}
        onClick={() => {
          choose(cell.key);
        }}
        onKeyDown={(event) => {
          steer(event, cell);
        }}
      >
        <title>{says}</title>
        <rect className="wood" x={cell.x} y={cell.y} width={cell.width} height={cell.height} />
        <StateMark cell={cell} state={state} patterns={patterns} kind={kind} />
      </g>
    );
  };
  const rows = [...new Set(drawing.planks.map((cell) => cell.row))];
  return (
    <div className="shell-scroll">
      <svg
        ref={map}
        className="shell-map"
        viewBox={`0 0 1000 ${drawing.height + 4}`}
        role="grid"
        aria-label={`${capital(side.side.toLowerCase())} side, ${inside ? 'ceiling' : 'planking'} and frames: strakes from the sheer down, forward to the left. Arrow keys go from piece to piece, Enter opens one.`}
      >
        <Patterns id={patterns} />
        <rect className="inside" x={44} y={0} width={956} height={drawing.height - 48} />
        <g aria-hidden="true">
          {drawing.ribs.map((rib) => {
            const state = stateIn(rib.standing, week, timeZone);
            return (
              <rect
                key={rib.key}
                className={`rib rib-${state.toLowerCase()}`}
                x={rib.x}
                y={rib.top}
                width={rib.width}
                height={rib.bottom - rib.top}
              />
            );
          })}
          {drawing.strakes.map(({ number, y }) => (
            <text key={number} className="strake-number" x={38} y={y + 4}>
              {number}
            </text>
          ))}
        </g>
        {rows.map((row) => (
          <g key={row} role="row">
            {drawing.planks.filter((cell) => cell.row === row).map((cell) => draw(cell, 'plank'))}
          </g>
        ))}
        <g role="row">{drawing.frames.map((cell) => draw(cell, 'frame'))}</g>
        <g aria-hidden="true">
          {drawing.frames.map((cell) => (
            <text
              key={cell.key}
              className={`frame-number frame-number-${stateIn(cell.standing, week, timeZone).toLowerCase()}`}
              x={cell.x + cell.width / 2}
              y={cell.y + (cell.standing ? 13 : 21)}
            >
              {cell.label}
            </text>
          ))}
        </g>
      </svg>
    </div>
  );
}

interface StateMarkProps {
  cell: Cell;
  state: ElementState;
  patterns: string;
  kind: 'plank' | 'frame';
}

/** Hatching one way for opening, the other for closing, a hole for open, a second line for closed; and the word. */
function StateMark({ cell, state, patterns, kind }: StateMarkProps) {
  if (state === 'STANDING') return null;
  const { x, y, width, height } = cell;
  const hatch =
    state === 'OPENING' || state === 'CLOSING' ? `url(#${patterns}-${state.toLowerCase()})` : null;
  const room = kind === 'frame' ? width > 30 : width > 70;
  return (
    <g aria-hidden="true">
      {hatch ? <rect x={x} y={y} width={width} height={height} fill={hatch} /> : null}
      {state === 'CLOSED' ? (
        <rect className="closed-line" x={x + 3} y={y + 3} width={width - 6} height={height - 6} />
      ) : null}
      {room ? (
        <text className="state-word" x={x + width / 2} y={kind === 'frame' ? y + 27 : y + height / 2 + 4.5}>
          {stateWords[state]}
        </text>
      ) : null}
    </g>
  );
}
