import { Audit, type Caller, Organisation, permit } from '@ribband/access';
import { CardKind, eraseCrew, idsByRef, readCrew, Skill, Volunteer, writeCrew } from '@ribband/crew';
import { Bus, Database, RealClock, refuse, Revisions } from '@ribband/platform';
import {
  eraseRepair,
  HaulOut,
  readRepair,
  safetyToKeep,
  StockHolds,
  Task,
  withOwnPictures,
  writeRepair,
} from '@ribband/repair';
import {
  eraseRoster,
  hoursToKeep,
  readRoster,
  rosterTopic,
  turnoutBookToKeep,
  writeHours,
  writePlaces,
  writeTurnoutBook,
  writeTurnouts,
} from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { PlanInForceEntity, unbeatable } from '../plans/plan-in-force.entity.js';
import { PlanInputEntity } from '../plans/plan-input.entity.js';
import { PlanEntity } from '../plans/plan.entity.js';
import { WeekDraftEntity } from '../week/roster/week-draft.entity.js';
import { readYard } from './checks.js';
import { readPlanBook, writePlanBook } from './plan-book.js';
import type { YardFault } from './faults.js';
import type { YardDocument } from './yard-document.js';

/** Who reads a document in, for the trail. */
type Reader = Pick<Caller, 'organisationId' | 'name'> & { accountId: string | null };

/** A whole yard in and out of the records. */
@Injectable()
export class YardBook {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(StockHolds) private readonly stockHolds: StockHolds,
  ) {}

  /**
   * Reads a yard in: all of it, or nothing and every fault by its path.
   * @param replace whether records that are there already may go
   */
  async import(caller: Caller, value: unknown, replace: boolean): Promise<YardDocument | YardFault[]> {
    permit(caller, 'director', 'coordinator');
    const read = readYard(value);
    if ('faults' in read) return read.faults;
    await this.database.write((manager) => this.write(manager, caller, read.document, replace));
    return read.document;
  }

  /** Writes a document that has been checked, in the caller's transaction, and asks for a plan of it. */
  async write(manager: EntityManager, reader: Reader, given: YardDocument, replace: boolean): Promise<void> {
    const { organisationId } = reader;
    const isThere =
      (await manager.existsBy(HaulOut, { organisationId })) ||
      (await manager.existsBy(Task, { organisationId }));
    if (isThere && !replace)
      refuse('YARD_NOT_EMPTY', 'This yard has records already.', {
        field: 'replace',
        remedy:
          'Say replace: true to put the document in their place. What is there now will be gone, but for books that the document says nothing of.',
      });
    const pictured = await withOwnPictures(manager, organisationId, given);
    const document = { ...pictured, safety: await safetyToKeep(manager, organisationId, pictured) };
    const hours = await hoursToKeep(manager, organisationId, document);
    const turnoutBook = await turnoutBookToKeep(manager, organisationId, document);
    const planBook = document.planBook ?? (await readPlanBook(manager, organisationId));
    await eraseRoster(manager, organisationId);
    await erasePlans(manager, organisationId);
    await eraseRepair(manager, organisationId);
    const former = await eraseCrew(manager, organisationId);
    await manager.update(Organisation, { id: organisationId }, document.organisation);
    await writeCrew(manager, organisationId, document, former);
    await writeRepair(manager, organisationId, document, reader.name, this.clock.now());
    await this.stockHolds.settle(manager, organisationId);
    const { timeZone } = document.haulOut;
    const turnouts = await writeTurnouts(manager, organisationId, timeZone, document);
    const refs = {
      tasks: await idsByRef(manager, Task, organisationId),
      volunteers: await idsByRef(manager, Volunteer, organisationId),
      skills: await idsByRef(manager, Skill, organisationId),
      cardKinds: await idsByRef(manager, CardKind, organisationId),
    };
    await writePlaces(manager, organisationId, timeZone, document, turnouts, refs);
    const around = { ...refs, turnouts };
    await writeHours(manager, organisationId, hours, around);
    await writeTurnoutBook(manager, organisationId, turnoutBook, around);
    await writePlanBook(manager, organisationId, planBook, refs.tasks);
    await this.audit.note(manager, reader, 'importYard', null, { tasks: refs.tasks.size, replace });
    const { revision } = await this.revisions.requestPlan(manager, organisationId, 'a yard was read in');
    await closeToOlderPlans(manager, organisationId, revision);
    this.bus.publishAfter(manager, rosterTopic(organisationId), { turnoutIds: [] });
  }

  /** The whole yard as a document that could be read in again. */
  async export(caller: Caller): Promise<YardDocument> {
    permit(caller, 'director', 'coordinator');
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const repair = await readRepair(manager, organisationId);
      if (!repair) return refuse('NOT_FOUND', 'There is no yard yet.', { remedy: 'Import a yard first.' });
      const { name, units, crewOddsWish } = await manager.findOneByOrFail(Organisation, {
        id: organisationId,
      });
      const { skills, cardKinds, volunteers } = await readCrew(
        manager,
        organisationId,
        caller.role === 'coordinator',
      );
      const roster = await readRoster(manager, organisationId, repair.haulOut.timeZone);
      return {
        format: 'ribband-yard/1',
        organisation: { name, units, crewOddsWish },
        vessel: repair.vessel,
        haulOut: repair.haulOut,
        hull: repair.hull,
        survey: repair.survey,
        methods: repair.methods,
        timber: repair.timber,
        skills,
        cardKinds,
        tools: repair.tools,
        elements: repair.elements,
        openingLimits: repair.openingLimits,
        tasks: repair.tasks,
        links: repair.links,
        turnoutRules: roster.turnoutRules,
        closedDays: roster.closedDays,
        singleTurnouts: roster.singleTurnouts,
        cancelledTurnouts: roster.cancelledTurnouts,
        volunteers,
        places: roster.places,
        tallies: repair.tallies,
        openings: repair.openings,
        cameOff: repair.cameOff,
        safety: repair.safety,
        delegations: repair.delegations,
        hours: roster.hours,
        turnoutBook: roster.turnoutBook,
        planBook: await readPlanBook(manager, organisationId),
      };
    });
  }
}

/** Plans speak of records that go. */
async function erasePlans(manager: EntityManager, organisationId: string): Promise<void> {
  await manager.delete(WeekDraftEntity, { organisationId });
  await manager.delete(PlanEntity, { organisationId });
  await manager.delete(PlanInputEntity, { organisationId });
}

/** A plan that is being made of the records that were there before can't come in force any more. */
async function closeToOlderPlans(
  manager: EntityManager,
  organisationId: string,
  revision: number,
): Promise<void> {
  await manager.upsert(
    PlanInForceEntity,
    { organisationId, planId: null, revision: revision - 1, value: unbeatable },
    ['organisationId'],
  );
}
