import type { Person, Problem, Seat, Stay } from '@ribband/engine';

/** Somebody's stay at a turnout. */
export function stayAt(person: Person, turnout: number): Stay | undefined {
  return person.stays.find((stay) => stay.turnout === turnout);
}

/** Whether somebody holds every one of some clearances at a turnout's start. */
function isCleared(
  problem: Problem,
  person: Person,
  clearances: readonly number[],
  turnout: number,
): boolean {
  const at = problem.turnouts[turnout]?.start ?? 0;
  return clearances.every((wanted) =>
    person.clearances.some(({ clearance, until }) => clearance === wanted && (until === null || until >= at)),
  );
}

/** Who is expected at a turnout and may fill a seat of a task. */
export function whoCanSit(problem: Problem, task: number, seat: Seat, turnout: number): Person[] {
  const everyone = problem.tasks[task]?.clearances ?? [];
  return problem.people.filter(
    (person) =>
      stayAt(person, turnout) !== undefined &&
      (person.levels[seat.skill] ?? 0) >= seat.level &&
      isCleared(problem, person, [...everyone, ...seat.clearances], turnout),
  );
}
