import type { Plan, Problem, Segment } from '@ribband/engine';
import { GRAIN, SHIFT } from '../generate/small-yard.js';
import type { Found, Solver } from './solver.js';

const SLOTS = SHIFT / GRAIN;

/**
 * A small yard (`generate/small-yard.ts`) as a constraint model. Time is counted in half hours of turnouts laid end to
 * end, which leaves out nothing: work lies inside one turnout, and glue that sets overnight is dry at the next one.
 *
 * A start a task, its turnout, and for each seat and person who may fill it a yes or no; nobody in two places at once;
 * nobody at a turnout to which they do not come.
 */
const MODEL = `
include "cumulative.mzn";
int: tasks; int: people; int: skills; int: turnouts; int: slots;
array[1..tasks] of int: length;
array[1..tasks] of bool: glue;
array[1..tasks] of bool: mill;
array[1..tasks, 1..skills] of int: seats;
array[1..people, 1..skills] of bool: can;
array[1..people, 1..turnouts] of bool: comes;
array[int, 1..2] of int: links;

int: horizon = turnouts * slots;
array[1..tasks] of var 0..horizon: start;
array[1..tasks] of var 1..turnouts: turnout;
var 0..horizon: ready;
array[1..tasks, 1..people, 1..skills] of var bool: fills;
array[1..tasks, 1..people] of var bool: works;

constraint forall(i in 1..tasks where length[i] > 0)(
  start[i] >= (turnout[i] - 1) * slots /\\ start[i] + length[i] <= turnout[i] * slots);
constraint forall(i in 1..tasks)(start[i] + length[i] <= ready);
constraint forall(l in index_set_1of2(links))(
  start[links[l, 1]] + length[links[l, 1]] <= start[links[l, 2]]);
% Glue begins inside a turnout or at its end; what follows waits for the next one.
constraint forall(i in 1..tasks where glue[i])(
  start[i] >= (turnout[i] - 1) * slots /\\ start[i] <= turnout[i] * slots);
constraint forall(l in index_set_1of2(links) where glue[links[l, 1]])(
  start[links[l, 2]] >= turnout[links[l, 1]] * slots);
constraint forall(i in 1..tasks, p in 1..people)(
  works[i, p] = exists(s in 1..skills)(fills[i, p, s])
  /\\ sum(s in 1..skills)(fills[i, p, s]) <= 1);
constraint forall(i in 1..tasks, s in 1..skills)(sum(p in 1..people)(fills[i, p, s]) = seats[i, s]);
constraint forall(i in 1..tasks, p in 1..people, s in 1..skills where not can[p, s] \\/ seats[i, s] = 0)(
  not fills[i, p, s]);
constraint forall(i in 1..tasks, p in 1..people)(works[i, p] -> comes[p, turnout[i]]);
array[1..tasks, 1..tasks] of var bool: apart;
constraint forall(i, j in 1..tasks where i < j /\\ length[i] > 0 /\\ length[j] > 0)(
  apart[i, j] = (start[i] + length[i] <= start[j] \\/ start[j] + length[j] <= start[i])
  /\\ forall(p in 1..people)(not works[i, p] \\/ not works[j, p] \\/ apart[i, j])
  /\\ (if mill[i] /\\ mill[j] then apart[i, j] else true endif));
% Follows from the rest and helps: of those who have a skill no more than there are can be at work with it.
constraint forall(s in 1..skills)(
  let { set of int: some = {i | i in 1..tasks where seats[i, s] > 0 /\\ length[i] > 0} } in
  cumulative([start[i] | i in some], [length[i] | i in some], [seats[i, s] | i in some],
    sum(p in 1..people)(bool2int(can[p, s]))));

solve :: int_search(start, smallest, indomain_min, complete) minimize ready;
`;

export interface YardAnswer {
  start: number[];
  turnout: number[];
  fills: boolean[][][];
}

export async function solveYard(
  solver: Solver,
  problem: Problem,
  seconds: number,
): Promise<Found<YardAnswer>> {
  const { tasks, people, skills, turnouts, links } = problem;
  const data = {
    tasks: tasks.length,
    people: people.length,
    skills: skills.length,
    turnouts: turnouts.length,
    slots: SLOTS,
    length: tasks.map(({ effort }) => (effort.kind === 'fixed' ? effort.minutes / GRAIN : 0)),
    glue: tasks.map(isGlue),
    mill: tasks.map(({ tools }) => tools.length > 0),
    seats: tasks.map(({ seats }) =>
      skills.map((_, s) => seats.reduce((sum, { skill, count }) => sum + (skill === s ? count : 0), 0)),
    ),
    can: people.map(({ levels }) => levels.map((level) => level >= 2)),
    comes: people.map(({ stays }) => turnouts.map((_, w) => stays.some(({ turnout }) => turnout === w))),
    links: links.map(({ before, after }) => [before + 1, after + 1]),
  };
  return solver.solve<YardAnswer>(MODEL, data, seconds);
}

function isGlue({ effort }: Problem['tasks'][number]): boolean {
  return effort.kind === 'elapsed' && effort.minutes > 0;
}

/** The solver's answer as a plan, so that the same verifier reads it. */
export function planFrom(problem: Problem, { start, turnout, fills }: YardAnswer): Plan {
  const { tasks, turnouts } = problem;
  const minute = (slot: number, w: number) => turnouts[w].start + (slot - w * SLOTS) * GRAIN;
  const starts: number[] = [];
  const segments: Segment[] = [];
  // Marks end when the last of their forerunners does: the model knows only half hours of turnouts.
  const end: number[] = [];
  tasks.forEach((task, i) => {
    const { effort } = task;
    const minutes = effort.kind === 'fixed' || effort.kind === 'elapsed' ? effort.minutes : 0;
    const before = problem.links.flatMap((link) => (link.after === i ? [end[link.before]] : []));
    starts[i] = minutes === 0 ? Math.max(problem.now, ...before) : minute(start[i], turnout[i] - 1);
    end[i] = starts[i] + minutes;
    const crew = fills[i].flatMap((own, person) =>
      own.flatMap((does, skill) =>
        does ? [{ person, seat: task.seats.findIndex((seat) => seat.skill === skill) }] : [],
      ),
    );
    const isWork = effort.kind === 'fixed';
    segments.push({ task: i, turnout: isWork ? turnout[i] - 1 : null, start: starts[i], end: end[i], crew });
  });
  const ready = Math.max(...end);
  const slot = problem.aim.slots.findIndex((at) => at >= ready);
  return {
    format: 'ribband-plan/1',
    ready,
    slot: slot < 0 ? null : slot,
    segments: segments.sort((a, b) => a.start - b.start),
    tasks: tasks.map((_, i) => ({ start: starts[i], end: end[i], float: 0, heldBy: { kind: 'nothing' } })),
    launchChain: [{ task: end.indexOf(ready), heldBy: { kind: 'nothing' } }],
    bound: { ready: 0, kind: 'critical path', bottleneck: null },
    proved: false,
    postingsChanged: 0,
    schedules: 0,
  };
}
