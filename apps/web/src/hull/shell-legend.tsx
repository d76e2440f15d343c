import { useId } from 'react';
import { stateWords } from './at-week.js';
import type { ElementState } from './hull.question.js';
import { Patterns } from './patterns.js';

/** What the marks of the shell mean, each as it is drawn. */
export function ShellLegend() {
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
