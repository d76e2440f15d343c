import { useId, useMemo, useState } from 'react';
import { useYard } from '../live/yard.js';
import { addDays, sayDay } from '../words/dates.js';
import { capital } from '../words/amounts.js';
import { sayOpen, widestWeek, type Week } from './at-week.js';
import type { Shell } from './hull.question.js';
import { ShellLegend } from './shell-legend.js';
import { ShellSideMap } from './shell-side.js';

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
      <ShellSideMap
        key={`${side.side} ${inside ? 'in' : 'out'} ${whole ? 'whole' : 'part'}`}
        side={side}
        week={week}
        whole={whole}
        inside={inside}
        chosen={chosen}
        choose={choose}
      />
      <ShellLegend />
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
