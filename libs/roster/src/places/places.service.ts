import { Audit, permit, type Caller } from '@ribband/access';
import { Bus, Database, newId, refuse, Revisions, YardClock } from '@ribband/platform';
import { OpeningGate } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull, MoreThan, type EntityManager } from 'typeorm';
import { Deeds } from '../deeds/deeds.service.js';
import { tellRoster } from '../roster-news.js';
import { overlap } from '../turnouts/relay-out.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { GateBook, refuseClosed } from './gate-book.js';
import { PlaceEntity } from './place.entity.js';
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
    const others = await manager.findBy(PlaceEntity, {
      organisationId,
      turnoutId: turnout.id,
      state: In(['posted', 'taken']),
    });
    const elsewhere = others.find(
      (other) => other.id !== place.id && other.volunteerId === volunteerId && overlap(other, place),
    );
    const book = await GateBook.read(manager, organisationId, {
      volunteerIds: [volunteerId, ...others.flatMap((other) => other.volunteerId ?? [])],
      taskIds: [place.taskId, ...(elsewhere ? [elsewhere.taskId] : [])],
      days: new Map([[turnout.id, turnout.heldOn]]),
    });
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
    refuseClosed(book.findings(volunteerId, place, others), hand);
    const { taskId, startsAt } = place;
    await this.openings.refuseStopped(manager, organisationId, { taskId, startsAt });
    const now = await this.clock.now(organisationId, manager);
    await this.takeOnce(manager, place.id, volunteerId, now);
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
    const { place, turnout } = await this.openTo(manager, caller.organisationId, placeId);
    if (place.volunteerId !== volunteerId)
      refuse('PLACE_NOT_OPEN', 'This place is not yours.', { field: 'placeId' });
    if (place.state === 'left') return place;
    const now = await this.clock.now(caller.organisationId, manager);
    const { affected } = await manager
      .createQueryBuilder()
      .update(PlaceEntity)
      .set({ state: 'left', leftAt: now, leftReason: reason, version: () => 'version + 1' })
      .where({ id: place.id, volunteerId, state: In(['posted', 'taken']) })
      .execute();
    if (affected !== 1) refuse('PLACE_NOT_OPEN', 'This place can’t be left any more.', { field: 'placeId' });
    const open = reopened(place);
    await manager.insert(PlaceEntity, open);
    if (asksStandIns) await this.standIns.askFor(manager, caller, place, open, turnout, now);
    await this.changed(manager, caller, 'leavePlace', place, 'a place was left', volunteerId);
    return manager.findOneByOrFail(PlaceEntity, { id: place.id });
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

const placeById = (manager: EntityManager, id: string): Promise<PlaceEntity> =>
  manager.findOneByOrFail(PlaceEntity, { id });

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
function reopened(place: PlaceEntity): PlaceEntity {
  return {
    ...place,
    id: newId('place'),
    version: 1,
    volunteerId: null,
    state: 'posted',
    why: null,
    takenAt: null,
    leftAt: null,
    leftReason: null,
  };
}
