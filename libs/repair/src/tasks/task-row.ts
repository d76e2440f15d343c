import { newId } from '@ribband/platform';
import type { Estimate, TaskDraft } from './task-draft.js';
import { pointsOf } from './estimate-faults.js';
import type { Seat } from './seat.entity.js';
import type { TaskOpening } from './task-opening.entity.js';
import type { TaskTool } from './task-tool.entity.js';
import type { Task } from './task.entity.js';

type EstimateColumns = Pick<Task, 'estimateBy' | 'unit' | 'count' | 'low' | 'likely' | 'high'>;

function estimateColumns(estimate: Estimate | null): EstimateColumns {
  if (!estimate) return { estimateBy: null, unit: null, count: null, low: null, likely: null, high: null };
  return {
    estimateBy: estimate.by,
    unit: estimate.by === 'count' ? estimate.unit : null,
    count: estimate.by === 'count' ? estimate.count : null,
    ...pointsOf(estimate).points,
  };
}

/** The estimate that a row holds. @throws when its columns contradict each other */
export function estimateOf(task: EstimateColumns & { id: string }): Estimate | null {
  const { estimateBy, unit, count, low, likely, high } = task;
  if (estimateBy === null) return null;
  if (low === null || likely === null || high === null)
    throw new Error(`${task.id}: an estimate has three points`);
  const points = { low, likely, high };
  switch (estimateBy) {
    case 'work':
      return { by: 'work', personMinutes: points };
    case 'time':
      return { by: 'time', minutes: points };
    case 'count':
      if (unit === null || count === null) throw new Error(`${task.id}: an estimate by count has a count`);
      return { by: 'count', unit, count, perPersonHour: points };
  }
}

/** The columns of a task that a draft fills; the rest is the task's own story. */
export function taskColumns(draft: TaskDraft) {
  return {
    title: draft.title.trim(),
    kind: draft.kind,
    position: draft.position,
    ...estimateColumns(draft.estimate),
    crewMin: draft.crew.min,
    crewEfficient: draft.crew.efficient,
    crewMax: draft.crew.max,
    cardKindIds: draft.cards,
    leastAge: draft.leastAge,
    oneGo: draft.oneGo,
    setUpMinutes: draft.setUpMinutes,
    extraHandShare: draft.extraHandShare,
    learnerShare: draft.learnerShare,
    hazards: draft.hazards,
    ownCautions: draft.cautions,
    notBefore: draft.notBefore,
    held: draft.held,
  } satisfies Partial<Task>;
}

interface Owner {
  organisationId: string;
  taskId: string;
}

export function seatRows(owner: Owner, seats: TaskDraft['seats']): Seat[] {
  return seats.map(({ skill, level, count, cards }) => ({
    id: newId('seat'),
    ...owner,
    skillId: skill,
    level,
    count,
    cardKindIds: cards,
  }));
}

export function toolRows(owner: Owner, tools: TaskDraft['tools']): TaskTool[] {
  return tools.map(({ tool, count }) => ({ id: newId('tooluse'), ...owner, toolId: tool, count }));
}

export function openingRows(owner: Owner, draft: Pick<TaskDraft, 'opens' | 'closes'>): TaskOpening[] {
  return (['opens', 'closes'] as const).flatMap((does) =>
    draft[does].map((elementId) => ({ id: newId('opening'), ...owner, elementId, does })),
  );
}

/** A task as it could be entered again, with ids for keys. */
export function draftOf(
  task: Task,
  seats: readonly Seat[],
  tools: readonly TaskTool[],
  openings: readonly TaskOpening[],
): TaskDraft {
  const elements = (does: TaskOpening['does']) =>
    openings.filter((opening) => opening.does === does).map((opening) => opening.elementId);
  return {
    title: task.title,
    kind: task.kind,
    position: task.position,
    estimate: estimateOf(task),
    crew: { min: task.crewMin, efficient: task.crewEfficient, max: task.crewMax },
    seats: seats.map(({ skillId, level, count, cardKindIds }) => ({
      skill: skillId,
      level,
      count,
      cards: cardKindIds,
    })),
    cards: task.cardKindIds,
    leastAge: task.leastAge,
    oneGo: task.oneGo,
    setUpMinutes: task.setUpMinutes,
    extraHandShare: task.extraHandShare,
    learnerShare: task.learnerShare,
    tools: tools.map(({ toolId, count }) => ({ tool: toolId, count })),
    opens: elements('opens'),
    closes: elements('closes'),
    hazards: task.hazards,
    cautions: task.ownCautions,
    notBefore: task.notBefore,
    held: task.held,
  };
}

/** The same draft with its keys exchanged: ids for a document's refs, or the other way round. */
export function withKeys(
  draft: TaskDraft,
  keys: Record<'skill' | 'card' | 'tool' | 'element', (key: string) => string>,
): TaskDraft {
  return {
    ...draft,
    seats: draft.seats.map((seat) => ({
      ...seat,
      skill: keys.skill(seat.skill),
      cards: seat.cards.map(keys.card),
    })),
    cards: draft.cards.map(keys.card),
    tools: draft.tools.map(({ tool, count }) => ({ tool: keys.tool(tool), count })),
    opens: draft.opens.map(keys.element),
    closes: draft.closes.map(keys.element),
  };
}
