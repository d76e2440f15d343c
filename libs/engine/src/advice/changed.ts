import type { Beliefs } from '../forecast/beliefs.js';
import { plainTask } from '../forecast/beliefs.js';
import type { Person, Problem, Stay } from '../problem.js';
import type { Change, RelaxableWish } from './advice-shape.js';

export interface Changed {
  problem: Problem;
  beliefs: Beliefs;
}

/**
 * The problem and the beliefs as they would be with a change. Tasks keep their indices, and people theirs, so that a
 * plan of the old problem still gives the order of work. Nothing of what was given is altered.
 */
export function changed(problem: Problem, beliefs: Beliefs, change: Change): Changed {
  switch (change.kind) {
    case 'recruit':
      return recruited(problem, beliefs, change);
    case 'train':
      return trained(problem, beliefs, change);
    case 'turnouts':
      return { problem: withTurnouts(problem, change.spans, change.people), beliefs };
    case 'tool':
      return {
        problem: {
          ...problem,
          tools: problem.tools.map((tool, k) =>
            k === change.tool
              ? {
                  ...tool,
                  capacity: tool.capacity + change.more,
                  spans: tool.spans.map((span) => ({ ...span, capacity: span.capacity + change.more })),
                }
              : tool,
          ),
        },
        beliefs,
      };
    case 'drop':
      return dropped(problem, beliefs, new Set(change.tasks));
    case 'relax':
      return { problem: relaxed(problem, change.wish), beliefs };
    case 'order earlier':
      return earlier(problem, beliefs, change);
  }
}

/** Several changes, one after the other. Turnouts come last: they move the indices of those that there are. */
export function changedBy(problem: Problem, beliefs: Beliefs, changes: readonly Change[]): Changed {
  const sorted = [...changes].sort((a, b) => Number(a.kind === 'turnouts') - Number(b.kind === 'turnouts'));
  return sorted.reduce<Changed>((now, change) => changed(now.problem, now.beliefs, change), {
    problem,
    beliefs,
  });
}

function recruited(
  problem: Problem,
  beliefs: Beliefs,
  change: Extract<Change, { kind: 'recruit' }>,
): Changed {
  const count = problem.people.length;
  const person: Person = {
    id: `recruit ${String(count)}`,
    name: 'one more person',
    levels: problem.skills.map((_, skill) =>
      change.skills.reduce((most, one) => (one.skill === skill ? Math.max(most, one.level) : most), 0),
    ),
    stays: change.turnouts.map((turnout) => ({
      turnout,
      from: problem.turnouts[turnout].start,
      to: problem.turnouts[turnout].end,
      showUp: change.showUp,
    })),
    // Whoever is asked to come has the cards that the work asks for.
    clearances: problem.clearances.map((_, clearance) => ({ clearance, until: null })),
    minutesAWeek: null,
    minutesATurnout: null,
  };
  return {
    problem: { ...problem, people: [...problem.people, person] },
    beliefs: { ...beliefs, showUp: [...beliefs.showUp, null] },
  };
}

/**
 * Before the last lesson the learner is who they were, after it somebody with one level more: two people of one name,
 * so that they have the same luck.
 */
function trained(problem: Problem, beliefs: Beliefs, change: Extract<Change, { kind: 'train' }>): Changed {
  const { person: p, trainer, skill, level, turnouts } = change;
  const lessons = new Set(turnouts);
  const last = Math.max(...turnouts);
  const away = (person: Person): Person => ({
    ...person,
    stays: person.stays.filter(({ turnout }) => !lessons.has(turnout)),
  });
  const learner = away(problem.people[p]);
  const after: Person = {
    ...learner,
    levels: learner.levels.map((held, s) => (s === skill ? Math.max(held, level) : held)),
    stays: learner.stays.filter(({ turnout }) => turnout > last),
  };
  const people = problem.people.map((person, k) => {
    if (k === p) return { ...learner, stays: learner.stays.filter(({ turnout }) => turnout < last) };
    return k === trainer ? away(person) : person;
  });
  return {
    problem: { ...problem, people: [...people, after] },
    beliefs: { ...beliefs, showUp: [...beliefs.showUp, beliefs.showUp[p]] },
  };
}

/** Turnouts put in where they belong by time; one that overlaps another is left out. */
function withTurnouts(problem: Problem, spans: { start: number; end: number }[], people: number[]): Problem {
  const fresh = spans.filter(
    ({ start, end }) =>
      end > start && problem.turnouts.every((turnout) => end <= turnout.start || start >= turnout.end),
  );
  const all = [
    ...problem.turnouts.map((turnout, old) => ({ ...turnout, old })),
    ...fresh.map((span) => ({ ...span, id: `further turnout ${String(span.start)}`, old: -1 })),
  ].sort((a, b) => a.start - b.start);
  const at = new Int32Array(problem.turnouts.length);
  all.forEach(({ old }, w) => {
    if (old >= 0) at[old] = w;
  });
  return {
    ...problem,
    horizon: Math.max(problem.horizon, ...fresh.map(({ end }) => end)),
    turnouts: all.map(({ id, start, end }) => ({ id, start, end })),
    people: problem.people.map((person, p) => {
      const stays: Stay[] = person.stays.map((stay) => ({ ...stay, turnout: at[stay.turnout] }));
      if (people.includes(p)) {
        const usual = person.stays.find(({ showUp }) => showUp > 0)?.showUp ?? 0.8;
        all.forEach(({ start, end, old }, turnout) => {
          if (old < 0) stays.push({ turnout, from: start, to: end, showUp: usual });
        });
        stays.sort((a, b) => a.turnout - b.turnout);
      }
      return { ...person, stays };
    }),
    posted: problem.posted.map((posting) => ({ ...posting, turnout: at[posting.turnout] })),
  };
}

function dropped(problem: Problem, beliefs: Beliefs, gone: ReadonlySet<number>): Changed {
  return {
    problem: {
      ...problem,
      tasks: problem.tasks.map((task, i) =>
        gone.has(i) && task.progress.kind !== 'done'
          ? {
              ...task,
              effort: { kind: 'hold' },
              crew: { min: 0, efficient: 0, max: 0 },
              seats: [],
              clearances: [],
              tools: [],
              notBefore: null,
            }
          : task,
      ),
      posted: problem.posted.filter(({ task }) => !gone.has(task)),
    },
    beliefs: { ...beliefs, tasks: beliefs.tasks.map((task, i) => (gone.has(i) ? plainTask() : task)) },
  };
}

function relaxed(problem: Problem, wish: RelaxableWish): Problem {
  switch (wish.kind) {
    case 'week cap':
    case 'turnout cap':
      return {
        ...problem,
        people: problem.people.map((person, p) =>
          p === wish.person
            ? { ...person, [wish.kind === 'week cap' ? 'minutesAWeek' : 'minutesATurnout']: null }
            : person,
        ),
      };
    case 'not before':
      return {
        ...problem,
        tasks: problem.tasks.map((task, i) => (i === wish.task ? { ...task, notBefore: null } : task)),
      };
    case 'link':
      return { ...problem, links: problem.links.filter((_, k) => k !== wish.link) };
  }
}

function earlier(
  problem: Problem,
  beliefs: Beliefs,
  { task: asked, by }: Extract<Change, { kind: 'order earlier' }>,
): Changed {
  const tasks = problem.tasks.map((task, i) => {
    if (i !== asked || task.progress.kind === 'done') return task;
    const { effort, notBefore } = task;
    if (effort.kind === 'elapsed')
      return { ...task, effort: { kind: 'elapsed' as const, minutes: Math.max(0, effort.minutes - by) } };
    return { ...task, notBefore: notBefore === null ? null : Math.max(problem.now, notBefore - by) };
  });
  return { problem: { ...problem, tasks }, beliefs };
}
