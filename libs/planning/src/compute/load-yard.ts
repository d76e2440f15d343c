import {
  CardKind,
  type ComingException,
  type ComingRule,
  crewHands,
  leastAgeFor,
  Skill,
} from '@ribband/crew';
import {
  agesOf,
  type Board,
  byTask,
  countedOn,
  HaulOut,
  hazardsOf,
  HullDay,
  type HullToday,
  LiftSlot,
  Seat,
  type Task,
  TaskOpening,
  TaskTool,
  Tool,
  YardBoard,
} from '@ribband/repair';
import { PlaceEntity, TurnoutEntity } from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull, type EntityManager } from 'typeorm';
import type { HandRecord, TaskRecord, YardRecords } from '../problem/yard-records.js';

/** The records of one moment; when each person is expected is still to be worked out (`Expected`). */
export interface LoadedYard {
  records: Omit<YardRecords, 'hands'>;
  hands: (Omit<HandRecord, 'stays'> & { rules: ComingRule[]; exceptions: ComingException[] })[];
}

/** Reads everything that a plan is made from, at one moment. */
@Injectable()
export class YardLoader {
  constructor(
    @Inject(YardBoard) private readonly board: YardBoard,
    @Inject(HullDay) private readonly hull: HullDay,
  ) {}

  /** @returns null before a yard was read in */
  async load(manager: EntityManager, organisationId: string): Promise<LoadedYard | null> {
    const inOrder = { where: { organisationId }, order: { id: 'ASC' } } as const;
    const haulOut = await manager.findOne(HaulOut, { where: { organisationId }, order: { id: 'DESC' } });
    if (!haulOut) return null;
    const board = await this.board.of(manager, organisationId);
    const hull = await this.hull.of(manager, organisationId, board);
    const slots = await manager.find(LiftSlot, {
      where: { haulOutId: haulOut.id },
      order: { startsAt: 'ASC' },
    });
    const turnouts = await manager.find(TurnoutEntity, {
      where: { organisationId, cancelledAt: IsNull() },
      order: { startsAt: 'ASC' },
    });
    const dated = turnouts.map(({ id, heldOn, startsAt, endsAt }) => ({ id, on: heldOn, startsAt, endsAt }));
    const hands = await crewHands(manager, organisationId);
    const places = await manager.find(PlaceEntity, inOrder);
    const records = {
      timeZone: haulOut.timeZone,
      now: board.now,
      hauledOutOn: haulOut.hauledOutOn,
      slots: slots.map(({ id, kind, startsAt, liftsOn }) => ({ id, kind, startsAt, on: liftsOn })),
      skills: await manager.find(Skill, inOrder),
      cardKinds: await manager.find(CardKind, inOrder),
      tools: await manager.find(Tool, inOrder),
      elements: [...hull.elements.values()].map(({ element: { id, name }, report, isOpen }) => {
        return { id, name, seen: report === null ? null : isOpen ? ('open' as const) : ('shut' as const) };
      }),
      // What the shipwright's override lets be open is not counted.
      openingLimits: hull.limits.map((limit) => {
        return {
          id: limit.id,
          name: limit.name,
          atMost: limit.atMost,
          elementIds: countedOn(limit, hull.today),
        };
      }),
      tasks: await taskRecords(manager, organisationId, board, isShapeHeld(hull)),
      links: board.links.map(({ id, beforeId, afterId, relation, lagMinutes, lagKind }) => {
        return { id, beforeId, afterId, relation, lagMinutes, lagKind };
      }),
      turnouts: dated,
      places: places.flatMap(({ taskId, turnoutId, volunteerId, state, startsAt, endsAt }) =>
        volunteerId === null ? [] : [{ taskId, turnoutId, handId: volunteerId, state, startsAt, endsAt }],
      ),
    };
    return { records, hands };
  }
}

async function taskRecords(
  manager: EntityManager,
  organisationId: string,
  board: Board,
  isShapeHeld: boolean,
): Promise<TaskRecord[]> {
  const inOrder = { where: { organisationId }, order: { id: 'ASC' } } as const;
  const ages = await agesOf(manager, organisationId);
  const seats = byTask(await manager.find(Seat, inOrder));
  const tools = byTask(await manager.find(TaskTool, inOrder));
  const openings = byTask(await manager.find(TaskOpening, inOrder));
  return board.tasks.map((task) => {
    const opens = openings(task.id).flatMap(({ does, elementId }) => (does === 'opens' ? [elementId] : []));
    const closes = openings(task.id).flatMap(({ does, elementId }) => (does === 'closes' ? [elementId] : []));
    return {
      id: task.id,
      title: task.title,
      kind: task.kind,
      ...standingRecord(task, board, isShapeHeld && opens.length > 0),
      minutes: task.estimateBy === 'time' ? Math.round(task.likely ?? 0) : null,
      crew: { min: task.crewMin, efficient: task.crewEfficient, max: task.crewMax },
      seats: seats(task.id).map(({ skillId, level, count, cardKindIds }) => {
        return { skillId, level, count, cardIds: cardKindIds };
      }),
      cardIds: task.cardKindIds,
      leastAge: leastAgeFor(
        { hazards: hazardsOf(task), leastAge: task.leastAge, dismantles: opens.length > 0 },
        ages,
      ),
      hazards: hazardsOf(task),
      oneGo: task.oneGo,
      setUpMinutes: task.setUpMinutes,
      extraHandShare: task.extraHandShare,
      learnerShare: task.learnerShare,
      tools: tools(task.id).map(({ toolId, count }) => ({ toolId, count })),
      opens,
      closes,
      notBefore: board.notBefore(task),
    };
  });
}

/** Whether a witness mark holds all opening work. */
const isShapeHeld = ({ marks }: HullToday): boolean => marks.some(({ state }) => state.held !== null);

function standingRecord(
  task: Task,
  board: Board,
  isShapeHeld: boolean,
): Pick<TaskRecord, 'state' | 'isHeld' | 'startedAt' | 'endedAt' | 'workLeftPersonMinutes'> {
  const standing = board.standing.get(task.id);
  const isDone = standing?.doneAt !== undefined && standing.doneAt !== null && standing.state !== 'dropped';
  return {
    state: standing?.state === 'dropped' ? 'dropped' : isDone ? 'done' : 'open',
    isHeld: standing?.state === 'held' || (isShapeHeld && !isDone),
    startedAt: standing?.begunAt ?? null,
    endedAt: isDone ? standing.doneAt : null,
    workLeftPersonMinutes: board.progress.get(task.id)?.workLeft?.likely ?? null,
  };
}
