import { CardKind, knownIds, Skill, type Fault } from '@ribband/crew';
import { In, IsNull, Not, type EntityManager } from 'typeorm';
import { HullElement } from '../openings/hull-element.entity.js';
import type { RosterView } from '../roster-view/roster-view.js';
import { Tool } from '../tools/tool.entity.js';
import type { TaskDraft, TaskSurroundings } from './task-draft.js';
import { TaskOpening } from './task-opening.entity.js';
import { Task } from './task.entity.js';

/** What a draft by ids is held against: of the ids that it names those that exist. */
export async function surroundingsOf(
  manager: EntityManager,
  organisationId: string,
  draft: Pick<TaskDraft, 'seats' | 'cards' | 'tools' | 'opens' | 'closes'>,
  roster: RosterView,
): Promise<TaskSurroundings> {
  const toolIds = draft.tools.map((use) => use.tool);
  const tools = await manager.findBy(Tool, { organisationId, id: In(toolIds) });
  const cards = [...draft.cards, ...draft.seats.flatMap((seat) => seat.cards)];
  return {
    skills: await knownIds(
      manager,
      Skill,
      organisationId,
      draft.seats.map((seat) => seat.skill),
    ),
    cards: await knownIds(manager, CardKind, organisationId, cards),
    tools: new Map(tools.map((tool) => [tool.id, tool.capacity])),
    elements: await knownIds(manager, HullElement, organisationId, [...draft.opens, ...draft.closes]),
    longestTurnoutMinutes: await roster.longestTurnoutMinutes(manager, organisationId),
  };
}

/** An element is opened by one task and closed by one: what another task of the scope does already. */
export async function openingFaults(
  manager: EntityManager,
  organisationId: string,
  draft: Pick<TaskDraft, 'opens' | 'closes'>,
  taskId: string | null,
): Promise<Fault[]> {
  const wanted = [...draft.opens, ...draft.closes];
  if (wanted.length === 0) return [];
  const rows = await manager.findBy(TaskOpening, {
    organisationId,
    elementId: In(wanted),
    ...(taskId === null ? {} : { taskId: Not(taskId) }),
  });
  const others = await manager.findBy(Task, {
    id: In(rows.map((row) => row.taskId)),
    droppedAt: IsNull(),
  });
  const titles = new Map(others.map((task) => [task.id, task.title]));
  return (['opens', 'closes'] as const).flatMap((does) =>
    draft[does].flatMap((elementId, at): Fault[] => {
      const other = rows.find(
        (row) => row.elementId === elementId && row.does === does && titles.has(row.taskId),
      );
      if (!other) return [];
      return [
        {
          code: 'ALREADY_EXISTS',
          path: `${does}[${at}]`,
          message: `"${titles.get(other.taskId) ?? ''}" ${does} it already`,
          wouldBeRight: `one task that ${does} it; take it out of the other first`,
        },
      ];
    }),
  );
}
