import { useId, useMemo, useRef, useState, type KeyboardEvent } from 'react';
import { useYard } from '../live/yard.js';
import { addDays, sayDay } from '../words/dates.js';
import { capital } from '../words/amounts.js';
import { sayCourse, sayOpen, stateIn, stateWords, widestWeek, workSpan, type Week } from './at-week.js';
import { drawSide, nextCell, type Cell } from './drawing.js';
import { Patterns } from './patterns.js';
import type { ElementState, Shell, ShellSide } from './hull.question.js';

interface ShellMapProps {
  shell: Shell;
  chosen: string | null;
  choose: (key: string) => void;
}

/** The shell unrolled: what each plank and frame is now, and by the plan in any week. */
export function ShellMap({ shell, chosen, choose }: ShellMapProps) {
  const { timeZone, today } = useYard();
  const ids = useId();
  const [week, setWeek] = useState<Week>(null);
  const [sideNow, setSide] = useState(shell.sides[0]?.side ?? 'STARBOARD');
  const [whole, setWhole] = useState(false);
  const [inside, setInside] = useState(false);
  const side = shell.sides.find((one) => one.side === sideNow) ?? shell.sides[0];
  const widest = useMemo(() => widestWeek(shell.sides, shell.weeks, timeZone), [shell, timeZone]);
  if (!side) return null;
  const thisWeek = shell.weeks.findLast((monday) => monday <= today) ?? shell.weeks[0] ?? today;
  const at = shell.weeks.indexOf(week ?? thisWeek);
  const inAMonth = shell.weeks.find((monday) => monday >= addDays(today, 24)) ?? shell.weeks.at(-1) ?? null;
  const go = (monday: string | null) => {
    setWeek(monday === thisWeek ? null : monday);
  };
  return (
    <div className="shell">
      <div className="shell-says">
        <p>
          <strong>Today</strong> {sayOpen(side, null, timeZone)}.
        </p>
        {inAMonth ? (
          <p>
            <strong>By {sayDay(addDays(inAMonth, 6))}</strong>, if the plan holds,{' '}
            {sayOpen(side, inAMonth, timeZone)}.
          </p>
        ) : null}
      </div>
      <div className="shell-time">
        <label htmlFor={`${ids}-week`}>
          Shown: <strong>{sayWeek(week)}</strong>
        </label>
        <input
          id={`${ids}-week`}
          type="range"
          min={0}
          max={Math.max(0, shell.weeks.length - 1)}
          value={Math.max(0, at)}
          aria-valuetext={sayWeek(week)}
          onChange={(event) => {
            go(shell.weeks[Number(event.target.value)] ?? null);
          }}
        />
        <div className="buttons">
          <Turn
            on={week === null}
            press={() => {
              setWeek(null);
            }}
            words="Today"
          />
          {inAMonth ? (
            <Turn
              on={week === inAMonth}
              press={() => {
                go(inAMonth);
              }}
              words="In a month"
            />
          ) : null}
          {widest ? (
            <Turn
              on={week === widest}
              press={() => {
                go(widest);
              }}
              words="When most is open"
            />
          ) : null}
        </div>
      </div>
      <p className="shell-now" role="status">
        {week === null || week === inAMonth ? '' : `Then ${sayOpen(side, week, timeZone)}.`}
      </p>
      <div className="buttons shell-turns">
        {shell.sides.map((one) => (
          <Turn
            key={one.side}
            on={one.side === side.side}
            press={() => {
              setSide(one.side);
            }}
            words={capital(one.side.toLowerCase())}
          />
        ))}
        <Turn
          on={inside}
          press={() => {
            setInside(!inside);
          }}
          words="Ceiling inside"
        />
        <Turn
          on={whole}
          press={() => {
            setWhole(!whole);
          }}
          words="Her whole length"
        />
      </div>
      <Side
        key={`${side.side} ${inside ? 'in' : 'out'} ${whole ? 'whole' : 'part'}`}
        side={side}
        week={week}
        whole={whole}
        inside={inside}
        chosen={chosen}
        choose={choose}
      />
      <Legend />
    </div>
  );
}

const sayWeek = (week: Week): string =>
  week === null ? 'today, as it really is' : `the week to ${sayDay(addDays(week, 6))}, by the plan`;

function Turn({ on, press, words }: { on: boolean; press: () => void; words: string }) {
  return (
    <button type="button" className="quiet" aria-pressed={on} onClick={press}>
      {words}
    </button>
  );
}

interface SideProps {
  side: ShellSide;
  week: Week;
  whole: boolean;
  inside: boolean;
  chosen: string | null;
  choose: (key: string) => void;
}

function Side({ side, week, whole, inside, chosen, choose }: SideProps) {
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

function Legend() {
  const id = useId().replace(/[^a-z0-9]/gi, '');
  const says: Record<ElementState, string> = {
    STANDING: 'nobody has touched it',
    OPENING: 'it is being taken off or out',
    OPEN: 'it is off or out: frames show behind',
    CLOSING: 'it is being put back',
    CLOSED: 'it is back',
  };
  return (
    <ul className="shell-legend" aria-label="What the marks mean">
      {(Object.keys(says) as ElementState[]).map((state) => (
        <li key={state}>
          <svg viewBox="0 0 40 22" width="40" height="22" aria-hidden="true">
            <Patterns id={id} />
            <rect className="inside" x={0} y={0} width={40} height={22} />
            <rect className="rib" x={14} y={0} width={12} height={22} />
            <g className={`cell cell-${state.toLowerCase()}`}>
              <rect className="wood" x={1} y={1} width={38} height={20} />
              {state === 'OPENING' || state === 'CLOSING' ? (
                <rect x={1} y={1} width={38} height={20} fill={`url(#${id}-${state.toLowerCase()})`} />
              ) : null}
              {state === 'CLOSED' ? (
                <rect className="closed-line" x={4} y={4} width={32} height={14} />
              ) : null}
            </g>
          </svg>
          <span>
            <strong>{stateWords[state]}</strong> {says[state]}
          </span>
        </li>
      ))}
    </ul>
  );
}
