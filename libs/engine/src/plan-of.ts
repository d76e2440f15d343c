import { chainOf } from './explain/chain.js';
import { draftOf } from './explain/draft.js';
import { floatsOf } from './explain/floats.js';
import { Holds } from './explain/holds.js';
import { CrewChooser } from './generate/crew.js';
import { Kind } from './model/kind.js';
import type { Model } from './model/model.js';
import type { Bound, Hand, Plan, Segment } from './plan.js';
import type { Kept } from './search/bench.js';

/** What a search has spent so far. */
export interface Spent {
  schedules: number;
  steps: number;
}

/** Makes the plan that people read out of a kept pass: names, seats, reasons, floats. */
export function planOf(model: Model, kept: Kept, bound: Bound, { schedules, steps }: Spent): Plan {
  const { problem, calendar } = model;
  const { start, end, ready } = kept;
  const segments = segmentsOf(model, kept);
  const draft = draftOf(problem, calendar, start, end, segments, ready);
  const holds = new Holds(draft);
  const floats = floatsOf(draft);
  const heldBy = problem.tasks.map((_, i) => holds.of(i));
  const slot = problem.aim.slots.findIndex((one) => one >= ready);
  return {
    format: 'ribband-plan/1',
    ready,
    slot: slot < 0 ? null : slot,
    segments,
    tasks: problem.tasks.map((_, i) => ({
      start: start[i],
      end: end[i],
      float: floats[i],
      heldBy: heldBy[i],
    })),
    launchChain: chainOf(draft, holds, heldBy),
    bound,
    proved: bound.ready === ready,
    postingsChanged: kept.changes,
    schedules,
    ...(steps > 0 ? { steps } : {}),
    ...(kept.held === null
      ? {}
      : { drawn: { order: [...kept.list], crewing: [...kept.hands], held: kept.held } }),
  };
}

function segmentsOf(model: Model, kept: Kept): Segment[] {
  const { problem, crowd, need, needs } = model;
  const chooser = new CrewChooser(model);
  const crew = (task: number, at: number, from: number, to: number): Hand[] => {
    if (need[task] < 0) return [];
    return chooser
      .seat(needs[need[task]], kept.crew, at, from, to)
      .map(([rank, seat]) => ({ person: crowd.person[rank], seat: seat < 0 ? null : seat }))
      .sort((a, b) => a.person - b.person);
  };
  const segments: Segment[] = [];
  if (model.dense) {
    for (let i = 0; i < model.n; i++) {
      const kind = model.kind[i];
      const start = kept.start[i];
      const end = kept.end[i];
      if (kind === Kind.Block) {
        segments.push({ task: i, turnout: 0, start, end, crew: crew(i, i * crowd.words, start, end) });
      } else if (kind === Kind.Elapsed || problem.tasks[i].effort.kind === 'hold') {
        segments.push({ task: i, turnout: null, start, end, crew: [] });
      }
    }
  }
  for (let k = 0; k < kept.count; k++) {
    const task = kept.task[k];
    const turnout = kept.turnout[k] < 0 ? null : kept.turnout[k];
    const start = kept.from[k];
    const end = kept.to[k];
    segments.push({
      task,
      turnout,
      start,
      end,
      crew: turnout === null ? [] : crew(task, k * crowd.words, start, end),
    });
  }
  return segments.sort((a, b) => a.start - b.start || a.end - b.end || a.task - b.task);
}
