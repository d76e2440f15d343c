import type { Check } from './faults.js';
import type { Problem } from './problem.js';

/** Levels, stays, clearances and caps of everybody. */
export function checkPeople(problem: Problem, check: Check): void {
  problem.people.forEach((person, p) => {
    const path = `people[${p}]`;
    if (person.levels.length !== problem.skills.length) {
      check.fault(
        `${path}.levels`,
        `must have one level a skill (${problem.skills.length}), has ${person.levels.length}`,
      );
    }
    person.levels.forEach((level, s) => check.whole(`${path}.levels[${s}]`, level, 0, 4));
    person.clearances.forEach(({ clearance, until }, c) => {
      check.index(`${path}.clearances[${c}].clearance`, clearance, 'clearances', problem.clearances.length);
      if (until !== null) check.minute(`${path}.clearances[${c}].until`, until);
    });
    for (const cap of ['minutesAWeek', 'minutesATurnout'] as const) {
      const minutes = person[cap];
      if (minutes !== null) check.whole(`${path}.${cap}`, minutes);
    }
    checkStays(problem, p, check);
  });
}

function checkStays(problem: Problem, p: number, check: Check): void {
  const seen = new Set<number>();
  problem.people[p].stays.forEach(({ turnout, from, to, showUp }, k) => {
    const path = `people[${p}].stays[${k}]`;
    check.share(`${path}.showUp`, showUp);
    const sound = [
      check.index(`${path}.turnout`, turnout, 'turnouts', problem.turnouts.length),
      check.minute(`${path}.from`, from),
      check.minute(`${path}.to`, to),
    ].every(Boolean);
    if (!sound) return;
    if (seen.has(turnout)) check.fault(`${path}.turnout`, `must not be turnouts[${turnout}] a second time`);
    seen.add(turnout);
    const { start, end } = problem.turnouts[turnout];
    if (from < start || from > end)
      check.fault(`${path}.from`, `must lie in its turnout (${start} to ${end}), is ${from}`);
    if (to > end || to < from)
      check.fault(`${path}.to`, `must lie between from (${from}) and the turnout's end (${end}), is ${to}`);
  });
}
