import { useId, useState, type ReactNode } from 'react';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { saySpare } from '../words/amounts.js';
import { saySpan } from '../words/dates.js';

export interface KnotOnRope {
  task: { id: string; title: string; position?: string | null };
  startsAt: string;
  endsAt: string;
  daysToSpare: number;
  why: string;
}

/** How many knots are shown at each end before the middle is coiled away. */
const shownAtEnds = 7;

/** The launch chain as one line of rope: each task a knot, in the order in which they hold each other. */
export function Rope({ knots, end }: { knots: KnotOnRope[]; end: ReactNode }) {
  const [uncoiled, setUncoiled] = useState(false);
  const coil = !uncoiled && knots.length > 2 * shownAtEnds + 3;
  const hidden = coil ? knots.length - 2 * shownAtEnds : 0;
  const first = coil ? knots.slice(0, shownAtEnds) : knots;
  const last = coil ? knots.slice(-shownAtEnds) : [];
  return (
    <>
      <svg width="0" height="0" className="unseen" aria-hidden="true">
        <defs>
          <pattern id="lay" width="9" height="10" patternUnits="userSpaceOnUse">
            <rect width="9" height="10" className="lay-ground" />
            <path d="M-1 7C2 7 7 3 10 2M-1 12C2 12 7 8 10 7M-1 2C2 2 7 -2 10 -3" className="lay-strand" />
          </pattern>
        </defs>
      </svg>
      <ol className="rope">
        {first.map((knot, index) => (
          <Knot key={knot.task.id + knot.startsAt} knot={knot} kind={index} before={knots[index - 1]} />
        ))}
        {coil ? (
          <li className="rope-coil">
            <Strand />
            <button
              type="button"
              className="quiet"
              onClick={() => {
                setUncoiled(true);
              }}
            >
              Show the {hidden} knots between
            </button>
          </li>
        ) : null}
        {last.map((knot, index) => (
          <Knot
            key={knot.task.id + knot.startsAt}
            knot={knot}
            kind={index + 1}
            before={knots[knots.length - last.length + index - 1]}
          />
        ))}
        <li className="rope-end">
          <svg className="strand-eye" width="36" height="46" viewBox="0 0 36 46" aria-hidden="true">
            <path d={eye} className="strand-edge" />
            <path d={eye} className="strand-hemp" />
          </svg>
          {end}
        </li>
      </ol>
    </>
  );
}

function Knot({ knot, kind, before }: { knot: KnotOnRope; kind: number; before: KnotOnRope | undefined }) {
  const { timeZone } = useYard();
  const why = useId();
  const sameSpare = before !== undefined && spareStep(before) === spareStep(knot);
  return (
    <li className="knot">
      <Strand knot={kind % 3} />
      <div className="knot-words">
        <p className="knot-name">
          <a href={to('work', knot.task.id)} aria-describedby={why}>
            {knot.task.title}
          </a>
          <span className="place-on-hull">{knot.task.position ?? ''}</span>
        </p>
        <p className="knot-when">
          <span className="pencil">{saySpan(knot.startsAt, knot.endsAt, timeZone)}</span>
          {sameSpare ? null : <span className="knot-spare">{saySpare(knot.daysToSpare)}</span>}
        </p>
        <p id={why} className="knot-why">
          {knot.why}
        </p>
      </div>
    </li>
  );
}

/** The bitter end: an eye for the shackle of the launch. */
const eye = 'M18 0V10C18 16 8 20 8 29S13 42 18 42S28 38 28 29S18 16 18 10';

/** The spare time as finely as it is worth saying again: days where they are few, else weeks. */
function spareStep({ daysToSpare }: KnotOnRope): number {
  return daysToSpare < 14 ? daysToSpare : 7 * Math.round(daysToSpare / 7);
}

const turns = [
  // An overhand knot, a figure of eight and a double turn, each on a rope that runs straight down at x = 18.
  'M18 0C18 8 6 9 6 18S26 27 29 19 21 10 13 15 18 30 18 40',
  'M18 0C18 7 8 7 8 13S28 18 28 25 20 32 14 29 10 18 18 18 18 32 18 40',
  'M18 0C18 8 8 8 7 13S28 14 29 18 8 20 8 24 29 24 28 29 18 33 18 40',
];

function Strand({ knot }: { knot?: number }) {
  return (
    <span className="strand" aria-hidden="true">
      <svg className="strand-line" width="36" height="100%">
        <rect x="13.5" width="9" height="100%" fill="url(#lay)" />
        <rect x="13" width="1.6" height="100%" className="strand-side" />
        <rect x="21.4" width="1.6" height="100%" className="strand-side" />
      </svg>
      {knot === undefined ? null : (
        <svg className="strand-knot" width="36" height="40" viewBox="0 0 36 40">
          <rect x="12" width="12" height="40" className="strand-gap" />
          <path d={turns[knot]} className="strand-edge" />
          <path d={turns[knot]} className="strand-hemp" />
        </svg>
      )}
    </span>
  );
}
