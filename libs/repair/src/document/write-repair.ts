import { CardKind, idsByRef, insertAll, known, Skill, Volunteer } from '@ribband/crew';
import { localToInstant, newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { writeSafety } from '../permits/safety-document.js';
import { writeDelegations } from '../tallies/delegations-document.js';
import { DelegationEntity } from '../tallies/delegation.entity.js';
import { HaulOut } from '../haul-out/haul-out.entity.js';
import { MethodsRecord } from '../methods/methods.entity.js';
import { yardNamesOf } from '../methods/names-of.js';
import { writeOrigins } from '../methods/origins.js';
import type { Made } from '../methods/work-out.js';
import { workedIn } from '../methods/worked-in.js';
import { SurveyRecord } from '../survey/survey.entity.js';
import { HullRecord } from '../hull/hull.entity.js';
import { LiftSlot } from '../haul-out/lift-slot.entity.js';
import { SlotWord } from '../haul-out/slot-word.entity.js';
import { Vessel } from '../haul-out/vessel.entity.js';
import { Link } from '../links/link.entity.js';
import { HullElement } from '../openings/hull-element.entity.js';
import { WitnessMark } from '../marks/witness-mark.entity.js';
import { HullSupport } from '../openings/hull-support.entity.js';
import { OpeningLimit } from '../openings/opening-limit.entity.js';
import { LayoutChoice } from '../planking/layout-choice.entity.js';
import { PictureBytes } from '../pictures/picture.entity.js';
import { Piece } from '../pieces/piece.entity.js';
import { TallyEntity } from '../tallies/tally.entity.js';
import { Seat } from '../tasks/seat.entity.js';
import { TaskOpening } from '../tasks/task-opening.entity.js';
import { openingRows, seatRows, taskColumns, toolRows, withKeys } from '../tasks/task-row.js';
import { TaskTool } from '../tasks/task-tool.entity.js';
import { Task } from '../tasks/task.entity.js';
import { dayBounds } from '../tasks/yard-board.js';
import { CareChoiceEntity } from '../trays/care-choice.entity.js';
import { Lot } from '../trays/lot.entity.js';
import { Tray } from '../trays/tray.entity.js';
import { eraseTimber, writeTimber } from '../timber/write-timber.js';
import { Tool } from '../tools/tool.entity.js';
import { writeOpenings } from './openings-document.js';
import type { RepairDocument } from './repair-document.js';
import { writeCameOff } from './write-came-off.js';

/**
 * Takes the vessel, her tasks and all that was written about them out of the records. Nothing else may name a task
 * any more: places and plans go first, the crew goes after.
 */
export async function eraseRepair(manager: EntityManager, organisationId: string): Promise<void> {
  await eraseTimber(manager, organisationId);
  // Links, seats, tallies and the like go with their tasks.
  for (const entity of [
    DelegationEntity,
    WitnessMark,
    LayoutChoice,
    HullSupport,
    Piece,
    PictureBytes,
    Tray,
    Lot,
    CareChoiceEntity,
    Task,
    OpeningLimit,
    HullElement,
    Tool,
    HaulOut,
    Vessel,
  ])
    await manager.delete(entity, { organisationId });
}

/** By whom and when the document is read in. */
interface Entered {
  enteredBy: string;
  enteredAt: number;
}

type Ids = ReadonlyMap<string, string>;
const idsOf = (rows: readonly { ref: string; id: string }[]): Ids =>
  new Map(rows.map((row) => [row.ref, row.id]));

/**
 * Writes the vessel's part of a document that has been checked whole, in the document's order. The crew's part must
 * be there already.
 * @param enteredBy name of who reads the document in, for its tallies
 * @param enteredAt epoch milliseconds by the real clock
 */
export async function writeRepair(
  manager: EntityManager,
  organisationId: string,
  given: RepairDocument,
  enteredBy: string,
  enteredAt: number,
): Promise<void> {
  const tools = given.tools.map((tool) => ({ id: newId('tool'), organisationId, ...tool }));
  await insertAll(manager, Tool, tools);
  const { document, made } = workedIn(given, await yardNamesOf(manager, organisationId));
  await writeHaulOut(manager, organisationId, document, made, { enteredBy, enteredAt });
  const elements = document.elements.map((element) => ({ id: newId('element'), organisationId, ...element }));
  await insertAll(manager, HullElement, elements);
  const elementIds = idsOf(elements);
  await insertAll(
    manager,
    OpeningLimit,
    document.openingLimits.map(({ elements: refs, override, ...limit }) => ({
      id: newId('limit'),
      organisationId,
      version: 1,
      ...limit,
      elementIds: refs.map((ref) => known(elementIds, ref)),
      overrideBy: override?.by ?? null,
      overrideReason: override?.reason ?? null,
      overriddenAt: override ? enteredAt : null,
      overrideElementIds: override?.elements?.map((ref) => known(elementIds, ref)) ?? null,
      overrideUntilOn: override?.untilOn ?? null,
    })),
  );
  const taskIds = await writeTasks(manager, organisationId, document, {
    elements: elementIds,
    tools: idsOf(tools),
  });
  if (made) await writeOrigins(manager, organisationId, made.tasks, (ref) => known(taskIds, ref));
  await insertAll(
    manager,
    Link,
    document.links.map(({ before, after, ...link }) => ({
      id: newId('link'),
      organisationId,
      version: 1,
      beforeId: known(taskIds, before),
      afterId: known(taskIds, after),
      ...link,
    })),
  );
  await writeTallies(manager, organisationId, document, taskIds, { enteredBy, enteredAt });
  await writeTimber(manager, organisationId, document.timber, { enteredBy, enteredAt });
  const { timeZone } = document.haulOut;
  const around = { elements: elementIds, tasks: taskIds, timeZone };
  await writeOpenings(manager, organisationId, document.openings, around, { enteredBy, enteredAt });
  const days = dayBounds(timeZone);
  const endOf = (day: string) => days.endOf(day);
  await writeCameOff(manager, organisationId, document.cameOff, { enteredBy, enteredAt }, endOf);
  await writeDelegations(manager, organisationId, document.delegations ?? []);
  await writeSafety(manager, organisationId, document.safety);
}

async function writeHaulOut(
  manager: EntityManager,
  organisationId: string,
  { vessel, haulOut, hull, survey, methods }: RepairDocument,
  made: Made | null,
  entered: Entered,
): Promise<void> {
  const vesselId = newId('vessel');
  await manager.insert(Vessel, { id: vesselId, organisationId, ...vessel });
  const { liftSlots, ...days } = haulOut;
  const haulOutId = newId('haulout');
  await manager.insert(HaulOut, { id: haulOutId, organisationId, vesselId, version: 1, ...days });
  const owner = { organisationId, haulOutId, version: 1 };
  const changed = { changedBy: entered.enteredBy, changedAt: entered.enteredAt };
  if (hull) await manager.insert(HullRecord, { id: newId('hull'), ...owner, ...hull, ...changed });
  if (survey) await manager.insert(SurveyRecord, { id: newId('survey'), ...owner, survey, ...changed });
  if (methods)
    await manager.insert(MethodsRecord, {
      id: newId('methods'),
      ...owner,
      methods,
      made: made ?? { tasks: [], links: [], elements: [], openingLimits: [] },
      ...changed,
    });
  await writeSlots(manager, organisationId, haulOutId, { liftSlots, timeZone: days.timeZone });
}

async function writeSlots(
  manager: EntityManager,
  organisationId: string,
  haulOutId: string,
  { liftSlots, timeZone }: Pick<RepairDocument['haulOut'], 'liftSlots' | 'timeZone'>,
): Promise<void> {
  const slots = liftSlots.map((slot) => ({ ...slot, id: newId('liftslot') }));
  await insertAll(
    manager,
    LiftSlot,
    slots.map(({ on, words: _words, ...slot }) => ({
      organisationId,
      haulOutId,
      ...slot,
      liftsOn: on,
      startsAt: localToInstant(on, slot.startTime, timeZone),
      endsAt: localToInstant(on, slot.endTime, timeZone),
    })),
  );
  const words = slots.flatMap(({ id: slotId, words: given }) =>
    given.map(({ on, by, ...word }) => {
      return { id: newId('slotword'), organisationId, slotId, givenOn: on, givenBy: by, ...word };
    }),
  );
  await insertAll(manager, SlotWord, words);
}

async function writeTasks(
  manager: EntityManager,
  organisationId: string,
  document: RepairDocument,
  ids: { elements: Ids; tools: Ids },
): Promise<Ids> {
  const skills = await idsByRef(manager, Skill, organisationId);
  const cards = await idsByRef(manager, CardKind, organisationId);
  const keys = {
    skill: (ref: string) => known(skills, ref),
    card: (ref: string) => known(cards, ref),
    tool: (ref: string) => known(ids.tools, ref),
    element: (ref: string) => known(ids.elements, ref),
  };
  const made = document.tasks.map((one) => {
    const draft = withKeys(one, keys);
    const task: Task = {
      id: newId('task'),
      organisationId,
      ref: one.ref,
      version: 1,
      ...taskColumns(draft),
      startedOn: one.progress?.startedOn ?? null,
      endedOn: one.progress?.endedOn ?? null,
      droppedAt: null,
      dropReason: null,
    };
    return { task, draft, owner: { organisationId, taskId: task.id } };
  });
  await insertAll(
    manager,
    Task,
    made.map(({ task }) => task),
  );
  await insertAll(
    manager,
    Seat,
    made.flatMap(({ owner, draft }) => seatRows(owner, draft.seats)),
  );
  await insertAll(
    manager,
    TaskTool,
    made.flatMap(({ owner, draft }) => toolRows(owner, draft.tools)),
  );
  await insertAll(
    manager,
    TaskOpening,
    made.flatMap(({ owner, draft }) => openingRows(owner, draft)),
  );
  return idsOf(made.map(({ task }) => task));
}

async function writeTallies(
  manager: EntityManager,
  organisationId: string,
  document: RepairDocument,
  taskIds: Ids,
  entered: Entered,
): Promise<void> {
  const volunteers = await idsByRef(manager, Volunteer, organisationId);
  const days = dayBounds(document.haulOut.timeZone);
  await insertAll(
    manager,
    TallyEntity,
    document.tallies.map(({ task, volunteer, on, ...tally }) => ({
      id: newId('tally'),
      organisationId,
      taskId: known(taskIds, task),
      volunteerId: volunteer === null ? null : known(volunteers, volunteer),
      turnoutId: null,
      workedOn: on,
      ...tally,
      yardAt: days.endOf(on),
      ...entered,
      correctsId: null,
      reason: null,
    })),
  );
}
