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

/** Whether somebody may fill a seat of a task at a turnout, if they come. */
export function mayFill(
  problem: Problem,
  person: Person,
  { task, seat, turnout }: { task: number; seat: Seat; turnout: number },
): boolean {
  const everyone = problem.tasks[task]?.clearances ?? [];
  return (
    (person.levels[seat.skill] ?? 0) >= seat.level &&
    isCleared(problem, person, [...everyone, ...seat.clearances], turnout)
  );
}

/** Whether somebody may be a hand on a task at a turnout, if they come. */
export function mayHelp(problem: Problem, person: Person, task: number, turnout: number): boolean {
  return isCleared(problem, person, problem.tasks[task]?.clearances ?? [], turnout);
}

/** Who is expected at a turnout and may fill a seat of a task. */
export function whoCanSit(problem: Problem, task: number, seat: Seat, turnout: number): Person[] {
  return problem.people.filter(
    (person) => stayAt(person, turnout) !== undefined && mayFill(problem, person, { task, seat, turnout }),
  );
}
