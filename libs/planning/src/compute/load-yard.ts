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
  sparedOn,
  HaulOut,
  hazardsOf,
  HullDay,
  type HullToday,
  restsOf,
  Seat,
  slotsLeft,
  slotStandingsOf,
  type Task,
  TaskOpening,
  TaskTool,
  Tool,
  YardBoard,
} from '@ribband/repair';
import { closedOn, PlaceEntity, TurnoutEntity } from '@ribband/roster';
import { instantToLocal } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull, Not, type EntityManager } from 'typeorm';
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
    const slots = slotsLeft(await slotStandingsOf(manager, haulOut.id));
    const turnouts = await manager.find(TurnoutEntity, {
      where: { organisationId, kind: IsNull(), cancelledAt: IsNull() },
      order: { startsAt: 'ASC' },
    });
    const special = await manager.findBy(TurnoutEntity, {
      organisationId,
      kind: Not(IsNull()),
      cancelledAt: IsNull(),
    });
    const rest = await restsOf(manager, organisationId);
    // What is rested on a hot day is not worked: the turnout is so much shorter for the plan.
    const closed = await closedOn(manager, organisationId);
    const dated = turnouts.map(({ id, heldOn, startsAt, endsAt }) => {
      const rested = rest(heldOn, (endsAt - startsAt) / 60_000) * 60_000;
      const holiday = closed.has(heldOn) ? { isClosed: true } : {};
      return { id, on: heldOn, ...holiday, startsAt, endsAt: endsAt - rested };
    });
    const places = await manager.find(PlaceEntity, inOrder);
    const hands = (await crewHands(manager, organisationId)).map((hand) => ({
      ...hand,
      exceptions: [...hand.exceptions, ...onWatch(hand.id, places, special, haulOut.timeZone)],
    }));
    const records = {
      timeZone: haulOut.timeZone,
      now: board.now,
      hauledOutOn: haulOut.hauledOutOn,
      slots: slots.map(({ slot: { id, startsAt, liftsOn }, role }) => {
        return { id, kind: role, startsAt, on: liftsOn };
      }),
      skills: await manager.find(Skill, inOrder),
      cardKinds: await manager.find(CardKind, inOrder),
      tools: await manager.find(Tool, inOrder),
      elements: [...hull.elements.values()].map(({ element: { id, name }, report, isOpen }) => {
        return { id, name, seen: report === null ? null : isOpen ? ('open' as const) : ('shut' as const) };
      }),
      openingLimits: hull.limits.map((limit) => {
        const { id, name, atMost, elementIds } = limit;
        return { id, name, atMost, elementIds, spared: sparedOn(limit, hull.today) };
      }),
      tasks: await taskRecords(manager, organisationId, board, isShapeHeld(hull)),
      links: board.links.map(({ id, beforeId, afterId, relation, lagMinutes, lagKind }) => {
        return { id, beforeId, afterId, relation, lagMinutes, lagKind };
      }),
      turnouts: dated,
      places: places.flatMap(({ taskId, turnoutId, volunteerId, teacherId, state, startsAt, endsAt }) => {
        const isLesson = teacherId !== null;
        return volunteerId === null
          ? []
          : [{ taskId, turnoutId, handId: volunteerId, state, isLesson, startsAt, endsAt }];
      }),
    };
    return { records, hands };
  }
}

/** The hours for which somebody has said yes to what is no usual turnout: they are at no turnout then. */
function onWatch(
  volunteerId: string,
  places: readonly PlaceEntity[],
  special: readonly TurnoutEntity[],
  timeZone: string,
): ComingException[] {
  const known = new Set(special.map(({ id }) => id));
  const theirs = places.filter((place) => place.volunteerId === volunteerId && place.state === 'taken');
  return theirs
    .filter(({ turnoutId }) => known.has(turnoutId))
    .map(({ startsAt, endsAt }) => {
      const from = instantToLocal(startsAt, timeZone);
      const to = instantToLocal(endsAt, timeZone);
      return { fromOn: from.day, toOn: from.day, canCome: false, from: from.time, to: to.time };
    });
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
