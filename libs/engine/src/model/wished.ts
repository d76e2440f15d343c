import type { Plan } from '../plan.js';
import type { Problem } from '../problem.js';
import { emptySet, has, put, type Crowd } from './people.js';

export interface WishedCrews {
  /** Key task * turnouts + turnout. */
  firm: Map<number, Int32Array>;
  soft: Map<number, Int32Array>;
  /** Turnouts of a task's firm postings, in order of time. */
  firmTurnouts: Map<number, number[]>;
  /** By turnout: everybody with a firm posting there. */
  held: Map<number, Int32Array>;
  /** By turnout: everybody with any posting there. */
  asked: Map<number, Int32Array>;
}

export function wishedOf(problem: Problem, crowd: Crowd, warm: Plan | undefined): WishedCrews | null {
  const wished: WishedCrews = {
    firm: new Map(),
    soft: new Map(),
    firmTurnouts: new Map(),
    held: new Map(),
    asked: new Map(),
  };
  const turnouts = problem.turnouts.length;
  const add = (map: Map<number, Int32Array>, key: number, person: number) => {
    let set = map.get(key);
    if (!set) map.set(key, (set = emptySet(crowd.words)));
    put(set, crowd.rank[person]);
  };
  const live = (task: number, turnout: number) =>
    problem.tasks[task].progress.kind !== 'done' && problem.turnouts[turnout].end > problem.now;
  for (const { task, turnout, person, firm } of problem.posted) {
    if (!live(task, turnout)) continue;
    const key = task * turnouts + turnout;
    add(firm ? wished.firm : wished.soft, key, person);
    add(wished.asked, turnout, person);
    if (!firm) continue;
    add(wished.held, turnout, person);
    const list = wished.firmTurnouts.get(task) ?? [];
    if (!list.includes(turnout)) list.push(turnout);
    wished.firmTurnouts.set(
      task,
      list.sort((a, b) => a - b),
    );
  }
  for (const segment of warm?.segments ?? []) {
    if (segment.turnout === null || segment.turnout >= turnouts || segment.task >= problem.tasks.length)
      continue;
    if (!live(segment.task, segment.turnout)) continue;
    for (const { person } of segment.crew) {
      if (person >= crowd.count) continue;
      const asked = wished.asked.get(segment.turnout);
      const key = segment.task * turnouts + segment.turnout;
      if (asked && has(asked, crowd.rank[person]) && !wished.firm.has(key) && !wished.soft.has(key)) continue;
      add(wished.soft, key, person);
    }
  }
  return wished.firm.size + wished.soft.size > 0 ? wished : null;
}
