import { to } from '../live/route.js';
import { Section } from '../parts/page.js';
import { sayShortDay } from '../words/dates.js';

interface Deciding {
  chain: string[];
  criticalTasks: { share: number; task: { id: string; title: string; position?: string | null } }[];
  weeks: { from: string; share: number }[];
  paces: string[];
}

/** So many are shown before the rest is unfolded. */
const shown = 6;

/** What the futures hang on: whose hours, which tasks, which weeks, and what the paces of work rest on. */
export function WhatDecides({ forecast }: { forecast: Deciding }) {
  const { chain, criticalTasks, weeks, paces } = forecast;
  const heavy = [...weeks].sort((a, b) => b.share - a.share).slice(0, 3);
  return (
    <Section title="What decides" id="decides">
      {chain.length ? (
        <ul>
          {chain.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      ) : null}
      {heavy.length ? (
        <p>
          It is decided most in the weeks from{' '}
          {heavy
            .map(({ from }) => from)
            .sort()
            .map((day) => sayShortDay(day))
            .join(', ')}
          .
        </p>
      ) : null}
      {criticalTasks.length ? (
        <>
          <p>Tasks that decide most often:</p>
          <ul>
            {criticalTasks.slice(0, shown).map(({ task, share }) => (
              <li key={task.id}>
                <a href={to('work', task.id)}>{task.title}</a>
                {task.position ? <span className="pencil">, {task.position}</span> : null}: in{' '}
                {Math.round(share * 100)} of 100 futures
              </li>
            ))}
          </ul>
        </>
      ) : null}
      {paces.length ? (
        <details>
          <summary>What the paces of work rest on</summary>
          <ul>
            {paces.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      ) : null}
    </Section>
  );
}
