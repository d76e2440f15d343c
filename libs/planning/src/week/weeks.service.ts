import { Audit, type Caller, permit } from '@ribband/access';
import { Database, newId, instantToLocal, refuse, startOfWeek, YardClock } from '@ribband/platform';
import { haulOutInForce } from '@ribband/repair';
import { type Posted, Posting, SwingHands, type TurnedAway, TurnoutEntity } from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull, MoreThan, type EntityManager } from 'typeorm';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { staffRoles } from '../plans/plans.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { heldAs, personOf, type PlacedHand, seatOf, stillHeld, stillToFill } from './roster/placed.js';
import { breaksOf, type OddsChange, oddsChanges, put } from './roster/put.js';
import {
  proposeRoster,
  type RosterBasis,
  rosterAsPosted,
  tellRoster,
  type ToldRoster,
} from './roster/told-roster.js';
import { WeekDraftEntity } from './roster/week-draft.entity.js';
import { tellWeek, type Week } from './week-told.js';
import { type ReadWeek, readWeek, turnoutsOfWeek } from './week-records.js';
import { seatsToPost, swingToPost } from './seats.js';

/** A week as it was tried out. */
export interface TriedWeek {
  week: Week;
  breaks: string[];
  odds: OddsChange[];
}

export interface PostedWeek {
  turnouts: TurnoutEntity[];
  /** Whom a gate did not let in, in sentences. */
  turnedAway: string[];
  /** Work that was not posted because the hull must wait, in sentences. */
  waits: string[];
}

/** The coming week: what the plan proposes, and posting it. */
@Injectable()
export class Weeks {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Posting) private readonly posting: Posting,
    @Inject(SwingHands) private readonly swing: SwingHands,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /**
   * @param day any day of the week; the week of the next turnout when null
   * @param fixed whom to keep where they are; null for the draft that was kept, or what is posted, or a first proposal
   */
  async propose(
    caller: Caller,
    day: string | null,
    fixed: readonly PlacedHand[] | null = null,
  ): Promise<Week> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const weekOf = startOfWeek(day ?? (await this.nextDay(manager, organisationId)));
      const read = await this.read(manager, organisationId, weekOf);
      const draft = await draftOf(manager, organisationId, weekOf);
      const { roster, lost } = rosterFor(read.basis, fixed, draft);
      return tellWeek(manager, organisationId, { weekOf, read, roster, draft, lost });
    });
  }

  /**
   * A week as it would be with these people on its places, and with one more put where the coordinator points: what
   * that breaks, and which odds it moves. Nothing is kept.
   */
  async tryOut(
    caller: Caller,
    day: string,
    planId: string,
    places: readonly PlacedHand[],
    change: { key: string; volunteerId: string | null } | null,
  ): Promise<TriedWeek> {
    permit(caller, 'coordinator', 'director');
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const weekOf = startOfWeek(day);
      const read = await this.read(manager, organisationId, weekOf);
      const basis = basisOfPlan(read.basis, planId);
      const before = heldAs(basis, places);
      const seat = change && seatOf(basis, change.key, 'put.key');
      const person =
        change === null || change.volunteerId === null
          ? null
          : personOf(basis, change.volunteerId, 'put.volunteerId');
      const after = seat ? put(before, seat, person) : before;
      const roster = tellRoster(basis, after);
      const draft = await draftOf(manager, organisationId, weekOf);
      return {
        week: await tellWeek(manager, organisationId, { weekOf, read, roster, draft, lost: 0 }),
        breaks: seat ? breaksOf(basis, before, after, { seat, person }) : [],
        odds: seat ? oddsChanges(basis, seat.turnout, before, roster) : [],
      };
    });
  }

  /** Keeps a week as it is put together so far, for whoever goes on with it. The newest counts. */
  async keepDraft(
    caller: Caller,
    day: string,
    planId: string,
    places: readonly PlacedHand[],
  ): Promise<WeekDraftEntity> {
    permit(caller, 'coordinator', 'director');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const weekOf = startOfWeek(day);
      const read = await this.read(manager, organisationId, weekOf);
      heldAs(basisOfPlan(read.basis, planId), places);
      const former = await draftOf(manager, organisationId, weekOf);
      const draft = await manager.save(WeekDraftEntity, {
        id: former?.id ?? newId('weekdraft'),
        organisationId,
        weekOf,
        version: (former?.version ?? 0) + 1,
        planId,
        places: places.map(({ key, volunteerId, fixed }) => ({ key, volunteerId, fixed })),
        keptAt: await this.clock.now(organisationId, manager),
        keptBy: caller.name,
      });
      await this.audit.note(manager, caller, 'keepWeekDraft', draft.id, { weekOf, places: places.length });
      return draft;
    });
  }

  /**
   * Posts a week.
   * @param places who has which place; the draft, or the week as it is proposed, when null
   * @throws RefusalError PLAN_OUTDATED when records have changed since the plan was made
   */
  async post(
    caller: Caller,
    day: string,
    planId: string,
    places: readonly PlacedHand[] | null = null,
  ): Promise<PostedWeek> {
    permit(caller, 'coordinator', 'director');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const told = await this.shelf.inForce(organisationId, manager);
      if (!told) refuse('NO_PLAN', 'There is no plan yet.', { remedy: 'Wait until the first one is there.' });
      if (told.entity.id !== planId || !(await this.shelf.isNewest(told, manager)))
        refuse('PLAN_OUTDATED', 'Something has changed since this plan was made.', {
          field: 'planId',
          remedy: 'Look at the week as the newest plan proposes it, and post that.',
        });
      const weekOf = startOfWeek(day);
      const { basis, turnouts } = await this.read(manager, organisationId, weekOf);
      const now = await this.clock.now(organisationId, manager);
      if (!turnouts.some(({ endsAt, cancelledAt }) => endsAt > now && cancelledAt === null))
        refuse('BAD_INPUT', `No turnout of the week of ${weekOf} is still to come.`, {
          field: 'weekOf',
          remedy: 'Choose a week that has one.',
        });
      const ids = turnouts.map((turnout) => turnout.id);
      const draft = await draftOf(manager, organisationId, weekOf);
      const roster =
        basis && places ? tellRoster(basis, heldAs(basis, places)) : rosterFor(basis, null, draft).roster;
      const seats = roster ? seatsToPost(told, roster) : [];
      const posted = await this.posting.post(manager, organisationId, ids, seats, planId);
      for (const { turnoutId, volunteerId } of posted.lessonsOver)
        await this.audit.note(manager, caller, 'endLesson', turnoutId, { volunteerId });
      const swing = roster ? swingToPost(told, roster) : [];
      const standBy = await this.swing.post(manager, organisationId, ids, swing);
      await manager.delete(WeekDraftEntity, { organisationId, weekOf });
      await this.audit.note(manager, caller, 'postWeek', planId, {
        weekOf,
        added: posted.added,
        withdrawn: posted.withdrawn,
        standBy,
      });
      return {
        turnouts,
        turnedAway: [
          ...(basis && roster ? keptAway(basis, roster) : []),
          ...posted.turnedAway.map((one) => turnedAwaySentence(told, one)),
        ],
        waits: waitSentences(told, posted.waits),
      };
    });
  }

  private async read(manager: EntityManager, organisationId: string, weekOf: string): Promise<ReadWeek> {
    const turnouts = await turnoutsOfWeek(manager, organisationId, weekOf);
    const told = await this.shelf.inForce(organisationId, manager);
    const now = await this.clock.now(organisationId, manager);
    return readWeek(manager, organisationId, { told, turnouts, now });
  }

  /** The day of the next turnout, or today where none is to come. */
  private async nextDay(manager: EntityManager, organisationId: string): Promise<string> {
    const now = await this.clock.now(organisationId, manager);
    const next = await manager.findOne(TurnoutEntity, {
      where: { organisationId, kind: IsNull(), endsAt: MoreThan(now), cancelledAt: IsNull() },
      order: { startsAt: 'ASC' },
    });
    if (next) return next.heldOn;
    const haulOut = await haulOutInForce(manager, organisationId);
    return instantToLocal(now, haulOut?.timeZone ?? 'UTC').day;
  }
}

const draftOf = (
  manager: EntityManager,
  organisationId: string,
  weekOf: string,
): Promise<WeekDraftEntity | null> => manager.findOneBy(WeekDraftEntity, { organisationId, weekOf });

/** Places go by the plan that they were read from. */
function basisOfPlan(basis: RosterBasis | null, planId: string): RosterBasis {
  if (!basis)
    return refuse('NO_PLAN', 'There is no plan yet.', { remedy: 'Wait until the first one is there.' });
  if (basis.told.entity.id !== planId)
    refuse('PLAN_OUTDATED', 'There is a newer plan, and its places differ.', {
      field: 'planId',
      remedy: 'Have the week proposed again; marked places are kept.',
    });
  return basis;
}

/** The roster that is asked for, and how many places that were kept are not to be filled any more. */
function rosterFor(
  basis: RosterBasis | null,
  fixed: readonly PlacedHand[] | null,
  draft: WeekDraftEntity | null,
): { roster: ToldRoster | null; lost: number } {
  if (!basis) return { roster: null, lost: 0 };
  if (fixed) {
    const kept = stillHeld(basis, fixed);
    return { roster: proposeRoster(basis, kept.fixed), lost: kept.lost };
  }
  if (!draft) return { roster: rosterAsPosted(basis), lost: 0 };
  if (draft.planId === basis.told.entity.id) {
    const { places, lost } = stillToFill(basis, draft.places);
    return { roster: tellRoster(basis, heldAs(basis, places)), lost };
  }
  const kept = stillHeld(basis, draft.places);
  return { roster: proposeRoster(basis, kept.fixed), lost: kept.lost };
}

/** One for each piece of work, however many seats it has. */
function waitSentences(told: ToldPlan, waits: Posted['waits']): string[] {
  const sentences = waits.map(({ seat, stops }) => {
    const title = told.problem.tasks.find(({ id }) => id === seat.taskId)?.name ?? '';
    return `“${title}”: ${stops.map(({ message }) => message).join(' ')}`;
  });
  return [...new Set(sentences)];
}

/** Whom the plan counts on and a gate keeps away, where nobody else takes their place. */
function keptAway({ told, facts }: RosterBasis, { unfilled }: ToldRoster): string[] {
  return unfilled.flatMap((seat) => {
    const words = seat.planned === null ? [] : facts.stops(seat.planned, seat);
    const name = told.problem.people[seat.planned ?? -1]?.name ?? '';
    const title = told.problem.tasks[seat.task]?.name ?? '';
    return words.length > 0 ? [`${name} on “${title}”: ${words.join(' ')} The place stands open.`] : [];
  });
}

function turnedAwaySentence(told: ToldPlan, { seat, findings }: TurnedAway): string {
  const name = told.problem.people.find(({ id }) => id === seat.volunteerId)?.name ?? '';
  const title = told.problem.tasks.find(({ id }) => id === seat.taskId)?.name ?? '';
  return `${name} on “${title}”: ${findings.map((finding) => finding.words).join(' ')} The place stands open.`;
}
