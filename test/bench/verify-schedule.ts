import type { Instance, LevelInstance, SkillInstance, ToolInstance } from './instance.js';

/** A classical schedule as it is printed; nothing here knows the engine. */
export interface Printed {
  starts: number[];
  assign?: unknown;
  makespan: number;
}

/** Every rule of the instance that a schedule breaks, in words; empty when it is sound. */
export function verifySchedule(instance: Instance, { starts, assign, makespan }: Printed): string[] {
  const { durations, order } = instance;
  const n = durations.length;
  if (starts.length !== n) return [`${starts.length} starts, ${n} tasks`];
  const broken: string[] = [];
  starts.forEach((start, i) => {
    if (!Number.isInteger(start) || start < 0) broken.push(`task ${i + 1} starts at ${start}`);
  });
  const ends = starts.map((start, i) => start + durations[i]);
  for (const [a, b] of order) {
    if (starts[b] < ends[a])
      broken.push(`task ${b + 1} starts at ${starts[b]}, task ${a + 1} ends at ${ends[a]}`);
  }
  const last = Math.max(0, ...ends);
  if (makespan !== last) broken.push(`makespan ${makespan} told, the last task ends at ${last}`);
  const running = (t: number) => [...starts.keys()].filter((i) => starts[i] <= t && t < ends[i]);
  switch (instance.format) {
    case 'sm':
      return [...broken, ...resources(instance, starts, running)];
    case 'dzn':
      return [...broken, ...places(instance, starts, running, assign)];
    case 'def':
      return [...broken, ...levels(instance, starts, running, assign)];
  }
}

type Running = (t: number) => number[];

function resources({ capacity, takes }: ToolInstance, starts: number[], running: Running): string[] {
  return [...new Set(starts)].flatMap((t) =>
    capacity.flatMap((most, k) => {
      const used = running(t).reduce((sum, i) => sum + takes[i][k], 0);
      return used > most ? [`resource ${k + 1}: ${used} of ${most} at ${t}`] : [];
    }),
  );
}

function places(instance: SkillInstance, starts: number[], running: Running, assign: unknown): string[] {
  const { needs, can } = instance;
  const given = assign as [number, number][][] | undefined;
  if (!Array.isArray(given) || given.length !== starts.length) return ['no assignment of every task'];
  const broken: string[] = [];
  needs.forEach((need, i) => {
    need.forEach((count, s) => {
      const filled = given[i].filter(([, skill]) => skill === s + 1).length;
      if (filled !== count) broken.push(`task ${i + 1} has ${filled} of ${count} with skill ${s + 1}`);
    });
    for (const [person, skill] of given[i]) {
      if (!can.at(person - 1)?.[skill - 1])
        broken.push(`person ${person} lacks skill ${skill} for task ${i + 1}`);
    }
  });
  const workers = given.map((pairs) => pairs.map(([person]) => person));
  return [...broken, ...twice(starts, running, workers)];
}

function levels(instance: LevelInstance, starts: number[], running: Running, assign: unknown): string[] {
  const given = assign as number[] | undefined;
  if (!Array.isArray(given) || given.length !== starts.length) return ['no assignment of every task'];
  const broken = given.flatMap((id, i) => {
    const { skill, level } = instance.task[i];
    const row = instance.levels[instance.resourceIds.indexOf(id)] as number[] | undefined;
    return row && row[skill] >= level ? [] : [`resource ${id} may not do task ${i + 1}`];
  });
  return [
    ...broken,
    ...twice(
      starts,
      running,
      given.map((id) => [id]),
    ),
  ];
}

/** Nobody in two places, also not within one task. */
function twice(starts: number[], running: Running, workers: number[][]): string[] {
  const moments = [...new Set(starts)];
  const doubled = moments.flatMap((t) => {
    const busy = running(t).flatMap((i) => workers[i]);
    return busy.filter((one, k) => busy.indexOf(one) < k).map((one) => `${one} is in two places at ${t}`);
  });
  return [...new Set(doubled)];
}
