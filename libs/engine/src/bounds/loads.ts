import type { WorkCalendar } from '../calendar.js';
import { ONE_GO, SPLIT } from '../lengths.js';
import type { Problem, Seat } from '../problem.js';
import type { Reach } from './reach.js';

/**
 * Everything of which there is only so much at a time, on the axis of working minutes: a tool, the people fit for a
 * set of seats, all hands. A load says how much there is, and what each task takes of it at least.
 *
 *     there    4 |____      ____
 *              2 |    |____|           working minutes ->
 *
 * Elapsed time is left out (it passes between turnouts too), which only weakens the bound.
 */
export interface Load {
  kind: 'tool' | 'people' | 'opening' | 'queue';
  name: { tool: number } | { limit: number } | { tasks: number[] } | { skills: number[]; people: number[] };
  /** Steps: from working minute at[k] on there are there[k]; `sum[k]` before at[k]. */
  at: Float64Array;
  there: Float64Array;
  sum: Float64Array;
  most: number;
  items: Item[];
}

export interface Item {
  task: number;
  /** Units held while the task runs. */
  height: number;
  /** Working minutes for which they are held at least. */
  minutes: number;
  /** In one piece: the minutes lie side by side. */
  whole: boolean;
}

/** How many loads of people to keep: those that are asked most for what there is. */
const MOST_PEOPLE_LOADS = 24;
/** Kinds of seats up to which every two are tried together. */
const MOST_PAIRED = 60;
/** Kinds of seats up to which every number of them is tried together. */
const MOST_JOINED = 8;

export function loadsOf(problem: Problem, reach: Reach): Load[] {
  return [...toolLoads(problem, reach), ...peopleLoads(problem, reach)];
}

function lies(reach: Reach, i: number): boolean {
  return reach.lies[i] === ONE_GO || reach.lies[i] === SPLIT;
}

function waits(problem: Problem, i: number): boolean {
  return problem.tasks[i].progress.kind !== 'done';
}

function toolLoads(problem: Problem, reach: Reach): Load[] {
  const { calendar } = reach;
  return problem.tools.map((tool, k) => {
    const items: Item[] = [];
    problem.tasks.forEach((task, i) => {
      const height = task.tools.reduce((sum, one) => sum + (one.tool === k ? one.count : 0), 0);
      if (height === 0 || !waits(problem, i) || !lies(reach, i)) return;
      items.push({ task: i, height, minutes: reach.leastMinutes(i), whole: reach.lies[i] === ONE_GO });
    });
    const changes = new Map([[0, tool.capacity]]);
    for (const span of tool.spans) {
      const [from, to] = [calendar.worked(span.from), calendar.worked(span.to)];
      if (from === to) continue;
      changes.set(from, span.capacity);
      if (!changes.has(to)) changes.set(to, tool.capacity);
    }
    return load('tool', { tool: k }, changes, items, calendar);
  });
}

function load(
  kind: Load['kind'],
  name: Load['name'],
  changes: Map<number, number>,
  items: Item[],
  calendar: WorkCalendar,
): Load {
  const steps = [...changes].filter(([at]) => at < calendar.total).sort((a, b) => a[0] - b[0]);
  const at = Float64Array.from([...steps.map((step) => step[0]), calendar.total]);
  const there = Float64Array.from([...steps.map((step) => step[1]), 0]);
  const sum = new Float64Array(at.length);
  for (let k = 1; k < at.length; k++) sum[k] = sum[k - 1] + there[k - 1] * (at[k] - at[k - 1]);
  return { kind, name, at, there, sum, most: Math.max(0, ...there), items };
}

/** The same load with time turned round: working minute w becomes total - w. */
export function mirrored(load: Load): Load {
  const { at, there, sum } = load;
  const last = at.length - 1;
  const total = at[last];
  return {
    ...load,
    at: at.map((_, k) => total - at[last - k]),
    there: there.map((_, k) => (k === last ? 0 : there[last - 1 - k])),
    sum: sum.map((_, k) => sum[last] - sum[last - k]),
  };
}

/** Units there are before working minute w, summed over minutes. */
export function thereBefore({ at, there, sum }: Load, w: number): number {
  let low = 0;
  let high = at.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (at[middle] <= w) low = middle;
    else high = middle;
  }
  return sum[low] + there[low] * Math.max(0, w - at[low]);
}

/** Everything that seats of one kind ask, with those who are fit for it as bits. */
interface Kind {
  people: bigint;
  skill: number;
  /** Seat-minutes asked at least by all tasks. */
  minutes: number;
}

/**
 * Loads of people: for a set of people, all seats that nobody outside the set is fit for. Sets tried: the people of
 * each kind of seat, of each two kinds together, and everybody; those kept are asked most for the minutes they have.
 */
function peopleLoads(problem: Problem, reach: Reach): Load[] {
  const kinds = new Map<string, Kind>();
  const kindsOf = problem.tasks.map((task, i) =>
    !waits(problem, i) || !lies(reach, i)
      ? []
      : task.seats.map((seat) => kindOf(problem, kinds, task.clearances, seat)),
  );
  problem.tasks.forEach((task, i) => {
    kindsOf[i].forEach((kind, s) => (kind.minutes += task.seats[s].count * reach.leastMinutes(i)));
  });
  const stayed = problem.people.map(({ stays }) =>
    stays.reduce((sum, stay) => sum + (stay.showUp > 0 ? stay.to - stay.from : 0), 0),
  );
  const everybody = (1n << BigInt(problem.people.length)) - 1n;
  const list = [...kinds.values()];
  const share = (set: bigint) => {
    const asked = list.reduce((sum, kind) => sum + (inside(kind.people, set) ? kind.minutes : 0), 0);
    return (
      asked /
      Math.max(
        1,
        members(set).reduce((sum, p) => sum + stayed[p], 0),
      )
    );
  };
  const singles = [...new Set(list.map((kind) => kind.people))];
  const sets = new Set(singles);
  if (singles.length <= MOST_JOINED) for (const a of singles) for (const b of [...sets]) sets.add(a | b);
  else if (singles.length <= MOST_PAIRED) for (const a of singles) for (const b of singles) sets.add(a | b);
  sets.delete(everybody);
  const kept = [...sets]
    .map((set) => ({ set, share: share(set) }))
    .sort((a, b) => b.share - a.share)
    .slice(0, MOST_PEOPLE_LOADS)
    .map(({ set }) => set);
  return [...kept, everybody].map((set) => {
    const people = members(set);
    const skills = new Set<number>();
    const items: Item[] = [];
    problem.tasks.forEach((task, i) => {
      let height = 0;
      kindsOf[i].forEach((kind, s) => {
        if (!inside(kind.people, set)) return;
        height += task.seats[s].count;
        skills.add(kind.skill);
      });
      if (!waits(problem, i) || !lies(reach, i)) return;
      const item = { task: i, height, minutes: reach.leastMinutes(i), whole: reach.lies[i] === ONE_GO };
      if (set === everybody) allHands(problem, reach, item);
      if (item.height > 0) items.push(item);
    });
    const name = { skills: [...skills].sort((a, b) => a - b), people };
    return load('people', name, presentSteps(problem, people, reach.calendar), items, reach.calendar);
  });
}

/**
 * Person-minutes of the whole crew: no fewer than the work, however it is shared out. What is done outside a span of
 * time is no more than the fastest crew does there, so the work counts as lying in loose minutes of the fastest crew.
 */
function allHands(problem: Problem, reach: Reach, item: Item): void {
  const { crew, effort } = problem.tasks[item.task];
  item.height = Math.max(item.height, crew.min);
  const { fastest } = reach.presence[item.task];
  if (effort.kind !== 'work' || fastest <= item.height) return;
  item.height = fastest;
  item.minutes = effort.personMinutes / fastest;
  item.whole = false;
}

function inside(people: bigint, set: bigint): boolean {
  return (people & ~set) === 0n;
}

function members(set: bigint): number[] {
  const people: number[] = [];
  for (let p = 0; set > 0n; p++, set >>= 1n) if (set & 1n) people.push(p);
  return people;
}

function kindOf(problem: Problem, kinds: Map<string, Kind>, clearances: number[], seat: Seat): Kind {
  const key = JSON.stringify([seat.skill, seat.level, seat.clearances, clearances]);
  let kind = kinds.get(key);
  if (!kind) {
    kind = {
      people: fitFor(problem, seat, [...clearances, ...seat.clearances]),
      skill: seat.skill,
      minutes: 0,
    };
    kinds.set(key, kind);
  }
  return kind;
}

function fitFor(problem: Problem, seat: Seat, clearances: number[]): bigint {
  return problem.people.reduce((set, person, p) => {
    const fit =
      person.levels[seat.skill] >= seat.level &&
      clearances.every((c) => person.clearances.some((held) => held.clearance === c));
    return fit ? set | (1n << BigInt(p)) : set;
  }, 0n);
}

/** How many of these people are there from which working minute on. */
function presentSteps(problem: Problem, people: number[], calendar: WorkCalendar): Map<number, number> {
  const change = new Map([[0, 0]]);
  const add = (at: number, by: number) => change.set(at, (change.get(at) ?? 0) + by);
  for (const p of people) {
    for (const { from, to, showUp } of problem.people[p].stays) {
      if (showUp <= 0) continue;
      add(calendar.worked(from), 1);
      add(calendar.worked(to), -1);
    }
  }
  let there = 0;
  const steps = new Map<number, number>();
  for (const [at, by] of [...change].sort((a, b) => a[0] - b[0])) steps.set(at, (there += by));
  return steps;
}
