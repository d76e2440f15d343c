import type { Person, Plan, Problem } from '@ribband/engine';
import type { CallInput } from './call-shapes.js';

type Morning = Pick<CallInput, 'problem' | 'turnout' | 'present' | 'barred' | 'closed'>;

/**
 * The yard's problem as it is this morning: at the turnout that is called exactly those who came are there, for certain.
 * What was posted there is wished for and no more; who did not come is posted nowhere. Closed work waits until the
 * turnout is over.
 *
 * A gate that keeps somebody from a task does so today. So that person stands twice in the problem: as themselves, at
 * this turnout alone and without a clearance that the task asks for; and at the end of the list for all later turnouts,
 * with it.
 */
export function morningProblem(morning: Morning): Problem {
  const { problem, turnout, present, barred = [], closed = [] } = morning;
  const there = new Map(present.map((one) => [one.person, one]));
  const barredFrom = new Map<number, Set<number>>();
  for (const { person, task } of barred)
    barredFrom.set(task, (barredFrom.get(task) ?? new Set()).add(person));
  const kept = [...barredFrom].map(([task, people], i) => {
    return { task, people, clearance: problem.clearances.length + i };
  });
  const later = laterSelves(morning);
  const shut = new Set(closed);
  const end = problem.turnouts[turnout]?.end ?? 0;
  const stays = (person: Person, i: number): Person['stays'] => {
    const came = there.get(i);
    const others = later.has(i) ? [] : person.stays.filter((stay) => stay.turnout !== turnout);
    if (!came) return others;
    const now = { turnout, from: came.from, to: came.to, showUp: 1 };
    return [...others, now].sort((a, b) => a.turnout - b.turnout);
  };
  const letOn = (i: number | null) =>
    kept.flatMap(({ people, clearance }) =>
      i !== null && people.has(i) ? [] : [{ clearance, until: null }],
    );
  return {
    ...problem,
    clearances: [
      ...problem.clearances,
      ...kept.map(({ task }) => ({
        id: `let-on-${String(task)}`,
        name: `let on “${problem.tasks[task]?.name ?? ''}”`,
      })),
    ],
    people: [
      ...problem.people.map((person, i) => {
        return { ...person, stays: stays(person, i), clearances: [...person.clearances, ...letOn(i)] };
      }),
      ...[...later.keys()].flatMap((i) => {
        const person = problem.people[i];
        if (!person) return [];
        return [
          {
            ...person,
            id: `${person.id} later`,
            stays: person.stays.filter((stay) => stay.turnout !== turnout),
            clearances: [...person.clearances, ...letOn(null)],
          },
        ];
      }),
    ],
    tasks: problem.tasks.map((task, i) => {
      const asks = kept.flatMap((one) => (one.task === i ? [one.clearance] : []));
      const waits = shut.has(i) ? Math.max(end, task.notBefore ?? 0) : task.notBefore;
      return { ...task, clearances: [...task.clearances, ...asks], notBefore: waits };
    }),
    posted: problem.posted.flatMap((posting) => {
      // Later turnouts are not called this morning: keeping theirs would cost the time that this one has.
      if (posting.turnout !== turnout) return [];
      const isHere = there.has(posting.person) && !barredFrom.get(posting.task)?.has(posting.person);
      return isHere && !shut.has(posting.task) ? [{ ...posting, firm: false }] : [];
    }),
  };
}

/** The plan in force in the numbers of the morning's problem. */
export function morningPlan(plan: Plan, morning: Morning): Plan {
  const later = laterSelves(morning);
  return {
    ...plan,
    segments: plan.segments.map((segment) => {
      if (segment.turnout === morning.turnout) return segment;
      const crew = segment.crew.map((one) => ({ ...one, person: later.get(one.person) ?? one.person }));
      return { ...segment, crew };
    }),
  };
}

/** By person who is barred from anything, their number for later turnouts. */
function laterSelves({ problem, barred = [] }: Pick<Morning, 'problem' | 'barred'>): Map<number, number> {
  const people = [...new Set(barred.map(({ person }) => person))].sort((a, b) => a - b);
  return new Map(people.map((person, i) => [person, problem.people.length + i]));
}
