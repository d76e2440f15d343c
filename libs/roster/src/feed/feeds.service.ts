import { createHash, randomBytes } from 'node:crypto';
import { Audit, hashOf, Organisation, permitOwn, type Caller } from '@ribband/access';
import { volunteerOf } from '@ribband/crew';
import { Config, Database, newId, RealClock, refuse, YardClock } from '@ribband/platform';
import { haulOutInForce, Task, Vessel } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull, type EntityManager } from 'typeorm';
import { withRole } from '../news/roster-words.js';
import { PlaceEntity } from '../places/place.entity.js';
import { SwingHandEntity } from '../swing/swing-hand.entity.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { type EventChanges, settleEvents } from './events.js';
import { CalendarEventEntity, CalendarFeedEntity, type ShownEvent } from './feed.entity.js';
import { writeCalendar } from './write-calendar.js';

const anHour = 60 * 60_000;

/** A calendar as it goes out. */
export interface ServedCalendar {
  text: string;
  /** For "has it changed?" */
  tag: string;
}

/** What somebody knows of their own calendar's address. */
export interface FeedState {
  isThere: boolean;
  madeAt: number | null;
  readAt: number | null;
}

/** Calendars that people's own programs read, each at a secret address that can be revoked. */
@Injectable()
export class Feeds {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(Config) private readonly config: Config,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  async state(caller: Caller): Promise<FeedState> {
    if (caller.volunteerId === null) return { isThere: false, madeAt: null, readAt: null };
    const { organisationId, volunteerId } = caller;
    const feed = await this.database.read.findOneBy(CalendarFeedEntity, { organisationId, volunteerId });
    return { isThere: feed !== null, madeAt: feed?.madeAt ?? null, readAt: feed?.readAt ?? null };
  }

  /**
   * Makes the caller's calendar an address, in the place of the one it had: only its hash is kept, so it is shown this
   * once.
   * @returns the path, such as /calendar/....ics
   */
  async make(caller: Caller): Promise<string> {
    const volunteerId = own(caller);
    permitOwn(caller, volunteerId);
    const { organisationId } = caller;
    const token = randomBytes(32).toString('base64url');
    await this.database.write(async (manager) => {
      await manager.delete(CalendarFeedEntity, { organisationId, volunteerId });
      await manager.insert(CalendarFeedEntity, {
        id: newId('feed'),
        organisationId,
        volunteerId,
        tokenHash: hashOf(token),
        madeAt: this.clock.now(),
        readAt: null,
      });
      await this.audit.note(manager, caller, 'makeCalendarAddress', volunteerId);
    });
    return `${this.config.publicUrl ?? ''}/calendar/${token}.ics`;
  }

  /** The address answers nobody any more. */
  async revoke(caller: Caller): Promise<void> {
    const volunteerId = own(caller);
    permitOwn(caller, volunteerId);
    const { organisationId } = caller;
    await this.database.write(async (manager) => {
      await manager.delete(CalendarFeedEntity, { organisationId, volunteerId });
      await this.audit.note(manager, caller, 'revokeCalendarAddress', volunteerId);
    });
  }

  /** The calendar at an address; null when the address is none of ours. */
  async serve(token: string): Promise<ServedCalendar | null> {
    const tokenHash = hashOf(token);
    if (!(await this.database.read.existsBy(CalendarFeedEntity, { tokenHash }))) return null;
    return this.database.write(async (manager) => {
      const feed = await manager.findOneBy(CalendarFeedEntity, { tokenHash });
      if (!feed) return null;
      const now = this.clock.now();
      if (feed.readAt === null || now - feed.readAt >= anHour)
        await manager.update(CalendarFeedEntity, { id: feed.id }, { readAt: now });
      const { organisationId, volunteerId } = feed;
      const volunteer = await volunteerOf(manager, organisationId, volunteerId);
      const organisation = await manager.findOneByOrFail(Organisation, { id: organisationId });
      const haulOut = await haulOutInForce(manager, organisationId);
      const { events } = await this.settle(manager, organisationId, volunteerId, now);
      const text = writeCalendar({
        name: `${volunteer.name}: ${organisation.name}`,
        timeZone: haulOut?.timeZone ?? 'UTC',
        events,
      });
      return { text, tag: createHash('sha256').update(text).digest('base64url') };
    });
  }

  /** Notes what has changed since the calendar was last told. */
  private async settle(
    manager: EntityManager,
    organisationId: string,
    volunteerId: string,
    now: number,
  ): Promise<EventChanges> {
    const mine = { organisationId, volunteerId };
    const known = await manager.findBy(CalendarEventEntity, mine);
    const standing = await standingEvents(manager, organisationId, volunteerId);
    const changes = settleEvents(known, standing, now, await this.yardClock.now(organisationId, manager));
    if (changes.dropped.length > 0)
      await manager.delete(CalendarEventEntity, { ...mine, placeId: In(changes.dropped) });
    const ids = new Map(known.map((event) => [event.placeId, event.id]));
    for (const event of changes.changed)
      await manager.save(CalendarEventEntity, {
        ...event,
        ...mine,
        id: ids.get(event.placeId) ?? newId('event'),
      });
    return changes;
  }
}

function own(caller: Caller): string {
  return (
    caller.volunteerId ??
    refuse('NOT_PERMITTED', 'Your account is not tied to anybody in the crew.', {
      remedy: 'Ask the director to tie your account to your entry.',
    })
  );
}

/** Somebody's places, and where they stand by, as their calendar shows them. */
async function standingEvents(
  manager: EntityManager,
  organisationId: string,
  volunteerId: string,
): Promise<Map<string, ShownEvent>> {
  const places = await manager.findBy(PlaceEntity, {
    organisationId,
    volunteerId,
    state: In(['posted', 'taken']),
  });
  const swing = await manager.findBy(SwingHandEntity, { organisationId, volunteerId, leftAt: IsNull() });
  if (places.length + swing.length === 0) return new Map();
  const turnouts = await manager.findBy(TurnoutEntity, {
    id: In([...places, ...swing].map(({ turnoutId }) => turnoutId)),
  });
  const tasks = await manager.findBy(Task, { id: In(places.map((place) => place.taskId)) });
  const haulOut = await haulOutInForce(manager, organisationId);
  const vessel = haulOut && (await manager.findOneBy(Vessel, { id: haulOut.vesselId }));
  const events = new Map<string, ShownEvent>();
  for (const place of places) {
    const turnout = turnouts.find((one) => one.id === place.turnoutId);
    if (!turnout || turnout.cancelledAt !== null) continue;
    const work = tasks.find((task) => task.id === place.taskId)?.title ?? 'work at the yard';
    const title = withRole(work, place.role);
    const isTaken = place.state === 'taken';
    events.set(place.id, {
      startsAt: place.startsAt,
      endsAt: place.endsAt,
      summary: isTaken ? title : `Asked: ${title}`,
      description: [
        isTaken ? '' : 'You are asked to come. Say yes or no on the page.',
        `The turnout is from ${turnout.startTime} to ${turnout.endTime}.`,
        turnout.note ?? '',
      ]
        .filter(Boolean)
        .join('\n'),
      location: vessel?.name ?? '',
      status: isTaken ? 'CONFIRMED' : 'TENTATIVE',
    });
  }
  for (const { id, turnoutId } of swing) {
    const turnout = turnouts.find((one) => one.id === turnoutId);
    const isPlaced = places.some((place) => place.turnoutId === turnoutId);
    // Who has a place comes anyway.
    if (!turnout || turnout.cancelledAt !== null || isPlaced) continue;
    events.set(id, {
      startsAt: turnout.startsAt,
      endsAt: turnout.endsAt,
      summary: 'Standing by',
      description: [
        'You are a swing hand: you go where somebody is missing. If you can’t, say so on the page.',
        turnout.note ?? '',
      ]
        .filter(Boolean)
        .join('\n'),
      location: vessel?.name ?? '',
      status: 'TENTATIVE',
    });
  }
  return events;
}
