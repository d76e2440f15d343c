import type { ToolInstance } from '../instance.js';
import { Dice } from './dice.js';
import { drawLinks, range } from './links.js';

/**
 * Parameters of single-mode projects as Kolisch, Sprecher and Drexl characterised them (Management Science 41, 1995):
 * - network complexity: links without redundant ones, over tasks;
 * - resource factor: of all the resources, the share that a task takes on average (0..1);
 * - resource strength: where the capacity lies between the least with which there is a schedule (0: the greatest
 *   request of any one task) and what nobody feels (1: the peak when every task starts as early as it can).
 */
export interface ClassicalWish {
  /** Without the two marks at start and end. */
  tasks: number;
  complexity: number;
  factor: number;
  strength: number;
  seed: number;
}

const RESOURCES = 4;

/** The cells of the published sets of 30 and 60 tasks (Kolisch and Sprecher 1996); 120 tasks have scarcer resources. */
export function cells(tasks: number): Omit<ClassicalWish, 'seed'>[] {
  const strengths = tasks >= 120 ? [0.1, 0.2, 0.3, 0.4, 0.5] : [0.2, 0.5, 0.7, 1];
  return [1.5, 1.8, 2.1].flatMap((complexity) =>
    [0.25, 0.5, 0.75, 1].flatMap((factor) =>
      strengths.map((strength) => ({ tasks, complexity, factor, strength })),
    ),
  );
}

/** Durations and requests are whole numbers from 1 to 10, as in the published sets. */
export function classicalInstance({
  tasks,
  complexity,
  factor,
  strength,
  seed,
}: ClassicalWish): ToolInstance {
  const dice = new Dice(seed);
  const n = tasks + 2;
  const order = drawLinks(n, complexity, dice);
  const isMark = (i: number) => i === 0 || i === n - 1;
  const durations = range(0, n).map((i) => (isMark(i) ? 0 : dice.whole(1, 10)));
  const takes = drawRequests(n, factor, dice);
  const starts = earlyStarts(durations, order);
  const capacity = range(0, RESOURCES).map((r) => {
    const least = Math.max(0, ...takes.map((row) => row[r]));
    const most = Math.max(
      least,
      ...starts.map((at) =>
        range(0, n).reduce(
          (sum, i) => sum + (starts[i] <= at && at < starts[i] + durations[i] ? takes[i][r] : 0),
          0,
        ),
      ),
    );
    return Math.max(1, Math.round(least + strength * (most - least)));
  });
  return { format: 'sm', durations, order, capacity, takes };
}

/** So many pairs of task and resource as the factor says, at least one a task where they suffice. */
function drawRequests(n: number, factor: number, dice: Dice): number[][] {
  const takes = range(0, n).map(() => new Array<number>(RESOURCES).fill(0));
  const firsts = dice.shuffled(range(1, n - 1)).map((i) => [i, dice.whole(0, RESOURCES - 1)]);
  const others = dice.shuffled(
    firsts.flatMap(([i, first]) => range(0, RESOURCES).flatMap((r) => (r === first ? [] : [[i, r]]))),
  );
  const wanted = Math.round(factor * (n - 2) * RESOURCES);
  for (const [i, r] of [...firsts, ...others].slice(0, wanted)) takes[i][r] = dice.whole(1, 10);
  return takes;
}

/** As early as the order lets each start; tasks are numbered so that it goes upwards. */
export function earlyStarts(durations: number[], order: [number, number][]): number[] {
  const starts = durations.map(() => 0);
  for (const [a, b] of [...order].sort((x, y) => x[0] - y[0]))
    starts[b] = Math.max(starts[b], starts[a] + durations[a]);
  return starts;
}
