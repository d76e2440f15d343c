import { layOut } from '../model/model.js';
import type { Wish } from '../plan.js';
import type { Problem } from '../problem.js';
import { hopeless } from './hopeless.js';
import { smallest } from './smallest.js';
import { without, wishesOf } from './without.js';

type NoPlan = { wishes: Wish[]; sets: number[][] };

/** Tasks that are looked into one by one; a yard with more of them has a fault that these show as well. */
const MOST_TASKS = 40;
/** Sets told of one and the same thing. */
const MOST_SETS = 3;
/** Tests that a set of one task may take, and one of the whole yard, where each test draws plans. */
const TESTS = { task: 200, yard: 160 };

/**
 * For tasks that can't be done whatever the order: of each the smallest sets of what it asks for that can't all hold,
 * each one tried out on that task alone.
 */
export function conflictsOfTasks(problem: Problem, found: readonly Wish[]): NoPlan {
  const tasks = new Set(found.flatMap((wish) => taskOf(problem, wish) ?? []));
  const told: NoPlan = { wishes: [], sets: [] };
  for (const task of [...tasks].slice(0, MOST_TASKS)) {
    const alone = { ...problem, links: [], openingLimits: [], tasks: problem.tasks.map(doneBut(task)) };
    const asked = wishesOf(problem, new Set([task]));
    const faultsWith = (some: readonly Wish[]) => faultsOf(without(alone, missing(asked, some)));
    const sets = setsOf(asked, (some) => faultsWith(some).length > 0, TESTS.task);
    for (const set of sets) tell(told, set.length === 1 ? [measured(set[0], faultsWith(set)[0])] : set);
    if (sets.length === 0) told.wishes.push(...found.filter((wish) => taskOf(problem, wish) === task));
  }
  return told;
}

/** For a yard whose tasks could each be done: smallest sets of wishes without which a plan is found. */
export function conflictsOfYard(
  problem: Problem,
  found: readonly Wish[],
  hasPlan: (problem: Problem) => boolean,
): NoPlan {
  const asked = wishesOf(problem);
  const told: NoPlan = { wishes: [], sets: [] };
  const cannot = (some: readonly Wish[]) => !hasPlan(without(problem, missing(asked, some)));
  for (const set of setsOf(asked, cannot, TESTS.yard)) tell(told, set);
  return told.sets.length > 0 ? told : { wishes: [...found], sets: [] };
}

/** Sets that have no wish in common, as long as what is left can't hold either. */
function setsOf(asked: readonly Wish[], cannot: (some: Wish[]) => boolean, tests: number): Wish[][] {
  const sets: Wish[][] = [];
  let left = [...asked];
  // With nothing asked for at all, it is no wish that stands in the way.
  while (sets.length < MOST_SETS && !cannot([]) && cannot(left)) {
    const set = smallest(left, cannot, tests);
    if (set === null) break;
    sets.push(set);
    left = missing(left, set);
  }
  return sets;
}

const missing = (all: readonly Wish[], some: readonly Wish[]): Wish[] =>
  all.filter((wish) => !some.includes(wish));

const faultsOf = (problem: Problem): Wish[] => hopeless(layOut(problem));

function tell(told: NoPlan, set: readonly Wish[]): void {
  told.sets.push(set.map((_, k) => told.wishes.length + k));
  told.wishes.push(...set);
}

/** How much of a single wish there is, as the look at the task with nothing else asked for has it. */
function measured(wish: Wish, fault: Wish | undefined): Wish {
  if (fault === undefined || fault.kind !== wish.kind) return wish;
  if (wish.kind === 'seat' && fault.kind === 'seat') return { ...wish, have: fault.have };
  return fault;
}

function doneBut(kept: number) {
  return (task: Problem['tasks'][number], i: number): Problem['tasks'][number] =>
    i === kept
      ? task
      : { ...task, progress: { kind: 'done', startedAt: 0, endedAt: 0 }, opens: [], closes: [] };
}

function taskOf(problem: Problem, wish: Wish): number | null {
  if (wish.kind === 'posting') return problem.posted[wish.posting].task;
  return 'task' in wish ? wish.task : null;
}
