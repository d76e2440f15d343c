import { Audit, permit, type Caller } from '@ribband/access';
import { Bus, Database, refuse, Revisions, YardClock } from '@ribband/platform';
import { OpeningGate, wordsOrNull } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull, MoreThan, type EntityManager } from 'typeorm';
import { Deeds } from '../deeds/deeds.service.js';
import { tellRoster } from '../roster-news.js';
import { underWay, withoutCrewSize } from './under-way.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { placesDuring } from './elsewhere.js';
import { isFreed, standsByAt } from '../swing/swing.records.js';
import { GateBook } from './gate-book.js';
import { endLessons } from './learners.js';
import { RosterMessages } from '../news/roster-messages.js';
import { newPlace, PlaceEntity } from './place.entity.js';
import { refuseClosed } from './refuse-closed.js';
import { StandIns } from './stand-ins.service.js';

/** Most places that one question is answered with. */
export const mostPlaces = 200;

/** Taking and leaving places, and what somebody has and may have. */
@Injectable()
export class Places {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(OpeningGate) private readonly openings: OpeningGate,
    @Inject(Deeds) private readonly deeds: Deeds,
    @Inject(StandIns) private readonly standIns: StandIns,
    @Inject(RosterMessages) private readonly messages: RosterMessages,
  ) {}

  /** What the caller has taken or is asked to take, soonest first. */
  async mine(caller: Caller): Promise<PlaceEntity[]> {
    if (caller.volunteerId === null) return [];
    const { organisationId, volunteerId } = caller;
    const now = await this.clock.now(organisationId);
    return this.database.read.find(PlaceEntity, {
      where: { organisationId, volunteerId, state: In(['posted', 'taken']), endsAt: MoreThan(now) },
      order: { startsAt: 'ASC', id: 'ASC' },
      take: mostPlaces,
    });
  }

  /** All places of some turnouts, in the order in which they were posted. */
  ofTurnouts(organisationId: string, turnoutIds: readonly string[]): Promise<PlaceEntity[]> {
    return this.database.read.find(PlaceEntity, {
      where: { organisationId, turnoutId: In([...turnoutIds]) },
      order: { startsAt: 'ASC', id: 'ASC' },
    });
  }

  /**
   * Takes a place for oneself, or for somebody else as coordinator. Every gate is asked again, and of any number who
   * want the same place at once one gets it.
   * @param key the caller's own for this press: asked again with it, the answer is the same
   */
  async take(
    caller: Caller,
    placeId: string,
    forVolunteerId: string | null = null,
    key: string | null = null,
  ): Promise<PlaceEntity> {
    const volunteerId = whoFor(caller, forVolunteerId);
    const work = (manager: EntityManager) => this.takeIn(manager, caller, placeId, volunteerId);
    return this.deeds.once(caller, { key, asked: `take ${placeId} ${volunteerId}`, work, again: placeById });
  }

  private async takeIn(
    manager: EntityManager,
    caller: Caller,
    placeId: string,
    volunteerId: string,
  ): Promise<PlaceEntity> {
    const { organisationId } = caller;
    const { place, turnout } = await this.openTo(manager, organisationId, placeId);
    if (place.volunteerId === volunteerId && place.state === 'taken') return place;
    if (place.state === 'left')
      refuse('PLACE_NOT_OPEN', 'This place was left; the open one stands beside it.', { field: 'placeId' });
    if (place.volunteerId !== null && place.volunteerId !== volunteerId) someoneElse();
    const all = await manager.findBy(PlaceEntity, { organisationId, turnoutId: turnout.id });
    const standing = all.filter(({ state }) => state !== 'left');
    const then = await placesDuring(manager, organisationId, [volunteerId], place);
    const theirs = then.filter(
      (other) => other.id !== place.id && (other.turnoutId === place.turnoutId || other.state === 'taken'),
    );
    // Who stands by goes where somebody is missing.
    const stepsIn =
      theirs.length > 0 &&
      theirs.every(({ turnoutId }) => turnoutId === turnout.id) &&
      isFreed(place, all) &&
      (await standsByAt(manager, organisationId, volunteerId)).has(turnout.id);
    const others = stepsIn ? standing.filter((other) => !theirs.some(({ id }) => id === other.id)) : standing;
    const elsewhere = stepsIn ? undefined : theirs[0];
    const now = await this.clock.now(organisationId, manager);
    const book = await GateBook.read(
      manager,
      organisationId,
      {
        volunteerIds: [volunteerId, ...others.flatMap((other) => other.volunteerId ?? [])],
        taskIds: [place.taskId, ...(elsewhere ? [elsewhere.taskId] : [])],
        days: new Map([[turnout.id, turnout.heldOn]]),
      },
      await underWay(manager, [turnout], now),
    );
    const hand = book.hand(volunteerId);
    if (!hand) return refuse('NOT_FOUND', 'There is no such person in the crew.', { field: 'volunteerId' });
    if (elsewhere)
      refuse(
        'ALREADY_ELSEWHERE',
        `${hand.name} has a place on “${book.job(elsewhere.taskId)?.task.title ?? ''}” then.`,
        {
          remedy: 'Leave that place first.',
        },
      );
    const closed = book.job(place.taskId)?.closed;
    if (closed) refuse('TASK_NOT_READY', closed, { field: 'placeId', remedy: 'Look at what else is open.' });
    refuseClosed(withoutCrewSize(book.findings(volunteerId, place, others)));
    const { taskId, startsAt } = place;
    await this.openings.refuseStopped(manager, organisationId, { taskId, startsAt });
    await this.takeOnce(manager, place.id, volunteerId, now);
    for (const { id } of stepsIn ? theirs : [])
      await this.leaveIn(manager, caller, id, { volunteerId, asksStandIns: false });
    await this.changed(manager, caller, 'takePlace', place, `${hand.name} took a place`, volunteerId);
    return manager.findOneByOrFail(PlaceEntity, { id: place.id });
  }

  /**
   * Leaves a place, which then stands open for others. "I can't come" asks for no reason.
   * @param key as for `take`
   */
  async leave(
    caller: Caller,
    placeId: string,
    reason: string | null,
    forVolunteerId: string | null = null,
    key: string | null = null,
  ): Promise<PlaceEntity> {
    const volunteerId = whoFor(caller, forVolunteerId);
    const work = (manager: EntityManager) => this.leaveIn(manager, caller, placeId, { reason, volunteerId });
    return this.deeds.once(caller, { key, asked: `leave ${placeId} ${volunteerId}`, work, again: placeById });
  }

  /**
   * As `leave`, in the caller's transaction, for whom the caller has been permitted to act.
   * @param asksStandIns false where somebody is known who steps in
   */
  async leaveIn(
    manager: EntityManager,
    caller: Caller,
    placeId: string,
    {
      volunteerId,
      reason = null,
      asksStandIns = true,
    }: { volunteerId: string; reason?: string | null; asksStandIns?: boolean },
  ): Promise<PlaceEntity> {
    const leftReason = wordsOrNull(reason, 'reason', 500, 'Why it is left');
    const { place, turnout } = await this.openTo(manager, caller.organisationId, placeId);
    if (place.volunteerId !== volunteerId)
      refuse('PLACE_NOT_OPEN', 'This place is not yours.', { field: 'placeId' });
    if (place.state === 'left') return place;
    const now = await this.clock.now(caller.organisationId, manager);
    const { affected } = await manager
      .createQueryBuilder()
      .update(PlaceEntity)
      .set({ state: 'left', leftAt: now, leftReason, version: () => 'version + 1' })
      .where({ id: place.id, volunteerId, state: In(['posted', 'taken']) })
      .execute();
    if (affected !== 1) refuse('PLACE_NOT_OPEN', 'This place can’t be left any more.', { field: 'placeId' });
    if (place.teacherId === null) {
      const open = reopened(place);
      await manager.insert(PlaceEntity, open);
      if (asksStandIns) await this.standIns.askFor(manager, caller, place, open, turnout, now);
      await this.endLessons(manager, caller, place);
    }
    await this.changed(manager, caller, 'leavePlace', place, 'a place was left', volunteerId);
    return manager.findOneByOrFail(PlaceEntity, { id: place.id });
  }

  /** Who would learn beside somebody who leaves learns nothing there: their place falls away, and they are told why. */
  private async endLessons(
    manager: EntityManager,
    caller: Caller,
    { turnoutId }: PlaceEntity,
  ): Promise<void> {
    const over = await endLessons(manager, [turnoutId]);
    for (const { volunteerId } of over)
      await this.audit.note(manager, caller, 'endLesson', turnoutId, { volunteerId });
    await this.messages.lessonsOver(manager, caller.organisationId, over);
  }

  /** The one statement by which exactly one of any number gets the place. */
  private async takeOnce(
    manager: EntityManager,
    placeId: string,
    volunteerId: string,
    now: number,
  ): Promise<void> {
    const { affected } = await manager
      .createQueryBuilder()
      .update(PlaceEntity)
      .set({ state: 'taken', volunteerId, takenAt: now, version: () => 'version + 1' })
      .where([
        { id: placeId, state: 'posted', volunteerId: IsNull() },
        { id: placeId, state: 'posted', volunteerId },
      ])
      .execute();
    if (affected !== 1) someoneElse();
  }

  private async openTo(
    manager: EntityManager,
    organisationId: string,
    placeId: string,
  ): Promise<{ place: PlaceEntity; turnout: TurnoutEntity }> {
    const place = await manager.findOneBy(PlaceEntity, { id: placeId, organisationId });
    if (!place) return refuse('NOT_FOUND', 'There is no such place.', { field: 'placeId' });
    const turnout = await manager.findOneByOrFail(TurnoutEntity, { id: place.turnoutId });
    const now = await this.clock.now(organisationId, manager);
    if (turnout.cancelledAt !== null || turnout.endsAt <= now)
      refuse('TURNOUT_OVER', 'This turnout is over or was called off.', { field: 'placeId' });
    return { place, turnout };
  }

  private async changed(
    manager: EntityManager,
    caller: Caller,
    operation: string,
    place: PlaceEntity,
    why: string,
    volunteerId: string,
  ): Promise<void> {
    await this.audit.note(manager, caller, operation, place.id, { volunteerId });
    await this.revisions.requestPlan(manager, caller.organisationId, why);
    tellRoster(this.bus, manager, caller.organisationId, [place.turnoutId]);
  }
}

/** What a place is now, for a press that is asked again; since then it may have fallen away. */
async function placeById(manager: EntityManager, id: string): Promise<PlaceEntity> {
  const place = await manager.findOneBy(PlaceEntity, { id });
  return (
    place ??
    refuse('PLACE_NOT_OPEN', 'This place has fallen away since.', {
      field: 'placeId',
      remedy: 'Look at what else is open.',
    })
  );
}

function someoneElse(): never {
  refuse('PLACE_TAKEN', 'Somebody else has this place.', {
    field: 'placeId',
    remedy: 'Look at what else is open.',
  });
}

/** Oneself, or whom the coordinator acts for. */
function whoFor(caller: Caller, forVolunteerId: string | null): string {
  if (forVolunteerId !== null && forVolunteerId !== caller.volunteerId) {
    permit(caller, 'director', 'coordinator');
    return forVolunteerId;
  }
  return (
    caller.volunteerId ??
    refuse('NOT_PERMITTED', 'Your account is not tied to anybody in the crew.', {
      field: 'volunteerId',
      remedy: 'Say for whom, or ask the director to tie your account to your entry.',
    })
  );
}

/** The open place that stands beside one that was left. */
function reopened({
  organisationId,
  turnoutId,
  taskId,
  startsAt,
  endsAt,
  skillId,
  level,
  role,
  cardKindId,
  planId,
}: PlaceEntity) {
  const asked = { skillId, level, role, cardKindId };
  return newPlace({ organisationId, turnoutId, taskId, startsAt, endsAt, ...asked, planId });
}
