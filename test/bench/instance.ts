/** Classical scheduling instances as their files tell them: whole time units, tasks counted from 0, no engine words. */
export type Instance = ToolInstance | SkillInstance | LevelInstance;

interface Common {
  durations: number[];
  /** [first, then]: the second starts no earlier than the first ends. */
  order: [number, number][];
}

/** Single-mode projects on renewable resources (`.sm`). */
export interface ToolInstance extends Common {
  format: 'sm';
  capacity: number[];
  /** Units a task and resource. */
  takes: number[][];
}

/** Multi-skill projects (`.dzn`): a task needs so many people of each skill; a person fills one place at a time. */
export interface SkillInstance extends Common {
  format: 'dzn';
  /** People a task and skill. */
  needs: number[][];
  /** By person and skill. */
  can: boolean[][];
}

/** Multi-skill projects with levels (`.def`): one person a task, who has its skill at its level or above. */
export interface LevelInstance extends Common {
  format: 'def';
  skills: string[];
  task: { skill: number; level: number }[];
  /** Level by person and skill, -1 where a person lacks it. */
  levels: number[][];
  resourceIds: number[];
}

/** A file that can't be read as what its name says. `line` counts from 1. */
export class BadFile extends Error {
  constructor(
    readonly line: number,
    readonly says: string,
  ) {
    super(`line ${line}: ${says}`);
  }
}

/** A whole number, 0 or more, or a BadFile that names the line. */
export function wholeOf(text: string | undefined, line: number, what: string): number {
  if (text === undefined || !/^\d+$/.test(text)) {
    throw new BadFile(
      line,
      `${what} must be a whole number, is ${text === undefined ? 'missing' : `"${text}"`}`,
    );
  }
  return Number(text);
}

/** @throws BadFile where tasks wait for each other in a circle. */
export function refuseCircles(order: [number, number][], n: number, line: number): void {
  const waits = new Array<number>(n).fill(0);
  const then: number[][] = Array.from({ length: n }, () => []);
  for (const [a, b] of order) {
    waits[b]++;
    then[a].push(b);
  }
  const free = [...waits.keys()].filter((i) => waits[i] === 0);
  for (let k = 0; k < free.length; k++) {
    for (const b of then[free[k]]) if (--waits[b] === 0) free.push(b);
  }
  if (free.length < n) throw new BadFile(line, 'tasks wait for each other in a circle');
}
