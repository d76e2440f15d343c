import { CardKind, known, refsById, Skill, Volunteer } from '@ribband/crew';
import { instantToLocal } from '@ribband/platform';
import type { EntityManager, EntityTarget } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import type { HaulOut } from '../haul-out/haul-out.entity.js';
import { HullRecord } from '../hull/hull.entity.js';
import { MethodsRecord } from '../methods/methods.entity.js';
import { SurveyRecord } from '../survey/survey.entity.js';
import { LiftSlot } from '../haul-out/lift-slot.entity.js';
import { SlotWord } from '../haul-out/slot-word.entity.js';
import { Vessel } from '../haul-out/vessel.entity.js';
import { Link } from '../links/link.entity.js';
import { HullElement } from '../openings/hull-element.entity.js';
import { OpeningLimit } from '../openings/opening-limit.entity.js';
import { readSafety } from '../permits/safety-document.js';
import { readDelegations } from '../tallies/delegations-document.js';
import { SaySo } from '../tallies/say-so.entity.js';
import { TallyEntity } from '../tallies/tally.entity.js';
import { progressOf, type Progress } from '../tasks/progress.js';
import { Seat } from '../tasks/seat.entity.js';
import { TaskOpening } from '../tasks/task-opening.entity.js';
import { draftOf, withKeys } from '../tasks/task-row.js';
import { TaskTool } from '../tasks/task-tool.entity.js';
import { Task } from '../tasks/task.entity.js';
import { dayBounds } from '../tasks/yard-board.js';
import { readTimber } from '../timber/read-timber.js';
import { Tool } from '../tools/tool.entity.js';
import { readCameOff } from './read-came-off.js';
import { readOpenings } from './openings-document.js';
import type { RepairDocument, TaskDocument } from './repair-document.js';
import { unlikeMade } from './unlike-made.js';
import { settledTallies } from './settled-tallies.js';
import { byTask } from '../tasks/by-task.js';

/** Rows of an organisation in the order in which they were entered. */
type Rows = <T extends object>(entity: EntityTarget<T>) => Promise<T[]>;

/**
 * The vessel's part of an organisation's yard document, in the order in which things were entered; null before a
 * yard was read in. Dropped tasks are left out with their links,
 * and so is what the methods make of the survey by themselves. Corrections of tallies are worked in, a pass stands
 * as the task's last day, and what was sent back as a smaller count.
 */
export async function readRepair(
  manager: EntityManager,
  organisationId: string,
): Promise<RepairDocument | null> {
  const haulOut = await haulOutInForce(manager, organisationId);
  if (!haulOut) return null;
  const rows: Rows = (entity) =>
    manager.find(entity, { where: { organisationId }, order: { id: 'ASC' } } as never);
  const tools = await rows(Tool);
  const elements = await rows(HullElement);
  const refs = {
    tools: refOf(tools),
    elements: refOf(elements),
    tasks: refOf((await rows(Task)).filter((task) => task.droppedAt === null)),
  };
  const methods = await manager.findOneBy(MethodsRecord, { haulOutId: haulOut.id });
  const document: RepairDocument = {
    ...(await readHaulOut(manager, rows, haulOut)),
    methods: methods && methods.methods,
    timber: await readTimber(manager, organisationId, haulOut.id),
    tools: tools.map(({ ref, name, capacity }) => ({ ref, name, capacity })),
    elements: elements.map(({ ref, name, kind, side, frame, strake }) => ({
      ref,
      name,
      kind,
      side,
      frame,
      strake,
    })),
    openingLimits: (await rows(OpeningLimit)).map((limit) => ({
      ref: limit.ref,
      name: limit.name,
      elements: limit.elementIds.map((id) => known(refs.elements, id)),
      atMost: limit.atMost,
      basis: limit.basis,
      override:
        limit.overrideBy === null
          ? null
          : {
              by: limit.overrideBy,
              reason: limit.overrideReason ?? '',
              elements: limit.overrideElementIds?.map((id) => known(refs.elements, id)) ?? null,
              untilOn: limit.overrideUntilOn,
            },
    })),
    ...(await readTasks(manager, organisationId, rows, refs, haulOut.timeZone)),
    links: (await rows(Link)).flatMap(({ beforeId, afterId, relation, lagMinutes, lagKind }) => {
      const before = refs.tasks.get(beforeId);
      const after = refs.tasks.get(afterId);
      return before && after ? [{ before, after, relation, lagMinutes, lagKind }] : [];
    }),
    openings: await readOpenings(manager, organisationId, { ...refs, timeZone: haulOut.timeZone }),
    cameOff: await readCameOff(manager, organisationId, haulOut.timeZone),
    safety: await readSafety(manager, organisationId, refs.tasks),
    delegations: await readDelegations(manager, organisationId, refs.tasks),
  };
  return methods ? unlikeMade(document, methods.methods, methods.made) : document;
}

const refOf = (rows: readonly { id: string; ref: string }[]): ReadonlyMap<string, string> =>
  new Map(rows.map((row) => [row.id, row.ref]));

async function readHaulOut(
  manager: EntityManager,
  rows: Rows,
  haulOut: HaulOut,
): Promise<Pick<RepairDocument, 'vessel' | 'haulOut' | 'hull' | 'survey'>> {
  const {
    id: _id,
    organisationId: _organisation,
    ...vessel
  } = await manager.findOneByOrFail(Vessel, {
    id: haulOut.vesselId,
  });
  const hull = await manager.findOneBy(HullRecord, { haulOutId: haulOut.id });
  const survey = await manager.findOneBy(SurveyRecord, { haulOutId: haulOut.id });
  const slots = (await rows(LiftSlot)).filter((slot) => slot.haulOutId === haulOut.id);
  const words = await rows(SlotWord);
  return {
    vessel,
    hull: hull && { outline: hull.outline },
    survey: survey && survey.survey,
    haulOut: {
      hauledOutOn: haulOut.hauledOutOn,
      timeZone: haulOut.timeZone,
      liftSlots: slots.map((slot) => ({
        ref: slot.ref,
        kind: slot.kind,
        on: slot.liftsOn,
        startTime: slot.startTime,
        endTime: slot.endTime,
        confirmBy: slot.confirmBy,
        extraCostCents: slot.extraCostCents,
        note: slot.note,
        words: words
          .filter(({ slotId }) => slotId === slot.id)
          .map(({ word, givenOn: on, givenBy: by, yardSays, note }) => ({ word, on, by, yardSays, note })),
      })),
    },
  };
}

async function readTasks(
  manager: EntityManager,
  organisationId: string,
  rows: Rows,
  refs: Record<'tools' | 'elements' | 'tasks', ReadonlyMap<string, string>>,
  timeZone: string,
): Promise<Pick<RepairDocument, 'tasks' | 'tallies'>> {
  const skills = await refsById(manager, Skill, organisationId);
  const cards = await refsById(manager, CardKind, organisationId);
  const volunteers = await refsById(manager, Volunteer, organisationId);
  const keys = {
    skill: (id: string) => known(skills, id),
    card: (id: string) => known(cards, id),
    tool: (id: string) => known(refs.tools, id),
    element: (id: string) => known(refs.elements, id),
  };
  const of = {
    seats: byTask(await rows(Seat)),
    tools: byTask(await rows(TaskTool)),
    openings: byTask(await rows(TaskOpening)),
    tallies: byTask(await rows(TallyEntity)),
    saySos: byTask(await rows(SaySo)),
  };
  const days = dayBounds(timeZone);
  const kept = (await rows(Task)).filter((task) => task.droppedAt === null);
  const told = kept.map((task) => {
    const progress = progressOf(task, of.tallies(task.id), of.saySos(task.id), days);
    return { task, progress, tallies: settledTallies(of.tallies(task.id), progress) };
  });
  return {
    tasks: told.map(({ task, progress }) => ({
      ref: task.ref,
      ...withKeys(draftOf(task, of.seats(task.id), of.tools(task.id), of.openings(task.id)), keys),
      progress: daysOf(task, progress, timeZone),
    })),
    // In the order in which they were entered, whichever task they belong to.
    tallies: told
      .flatMap(({ task, tallies }) => tallies.map((tally) => ({ task, ...tally })))
      .sort((a, b) => (a.firstId < b.firstId ? -1 : 1))
      .map(({ task, tally }) => ({
        task: task.ref,
        volunteer: tally.volunteerId === null ? null : known(volunteers, tally.volunteerId),
        on: tally.workedOn,
        count: tally.count,
        minutes: tally.minutes,
        finished: tally.finished,
        note: tally.note,
      })),
  };
}

/** First and last day of a task as a document says them: those entered, and those that a pass stands for. */
function daysOf(task: Task, progress: Progress, timeZone: string): TaskDocument['progress'] {
  const day = (instant: number) => instantToLocal(instant, timeZone).day;
  if (progress.stage === 'passed' && progress.doneAt !== null) {
    const endedOn = task.endedOn ?? day(progress.doneAt);
    const startedOn = task.startedOn ?? (progress.begunAt === null ? endedOn : day(progress.begunAt));
    return { startedOn, endedOn };
  }
  return task.startedOn === null ? null : { startedOn: task.startedOn, endedOn: null };
}
