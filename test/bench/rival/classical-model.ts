import type { ToolInstance } from '../instance.js';
import type { Found, Solver } from './solver.js';

/**
 * The single-mode project as a constraint model: one start a task, the order as differences, one cumulative constraint
 * a resource. Starts are branched on earliest first; the solver may leave that for its own activity-based search.
 */
const MODEL = `
include "cumulative.mzn";
int: tasks;
int: resources;
int: horizon;
array[1..tasks] of int: minutes;
array[int, 1..2] of int: links;
array[1..resources] of int: capacity;
array[1..resources, 1..tasks] of int: takes;
array[1..tasks] of var 0..horizon: start;
var 0..horizon: makespan;
constraint forall(l in index_set_1of2(links))(
  start[links[l, 1]] + minutes[links[l, 1]] <= start[links[l, 2]]);
constraint forall(i in 1..tasks)(start[i] + minutes[i] <= makespan);
constraint forall(r in 1..resources)(
  let { set of int: some = {i | i in 1..tasks where takes[r, i] > 0 /\\ minutes[i] > 0} } in
  cumulative([start[i] | i in some], [minutes[i] | i in some], [takes[r, i] | i in some], capacity[r]));
solve :: seq_search([
  int_search(start, smallest, indomain_min, complete),
  int_search([makespan], input_order, indomain_min, complete)
]) minimize makespan;
`;

export async function solveClassical(
  solver: Solver,
  instance: ToolInstance,
  seconds: number,
): Promise<Found<{ start: number[]; makespan: number }>> {
  const { durations, order, capacity, takes } = instance;
  return solver.solve(
    MODEL,
    {
      tasks: durations.length,
      resources: capacity.length,
      horizon: durations.reduce((sum, minutes) => sum + minutes, 0),
      minutes: durations,
      links: order.map(([a, b]) => [a + 1, b + 1]),
      capacity,
      takes: capacity.map((_, r) => takes.map((row) => row[r])),
    },
    seconds,
  );
}
