import type { Caller } from '@ribband/access';
import { comesToWatch, type CrewHand, crewHands, recipientsWith, staysOf } from '@ribband/crew';
import { Messages } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { RosterMessages } from '../news/roster-messages.js';
import { RosterSettings } from '../settings/roster-settings.service.js';
import { closedOn } from '../turnouts/closed-days.service.js';
import { overlap } from '../turnouts/relay-out.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { yardDays } from '../turnouts/yard-days.js';
import { swingAt } from '../swing/swing.records.js';
import { placesDuring } from './elsewhere.js';
import { GateBook } from './gate-book.js';
import { PlaceEntity } from './place.entity.js';

/** Asked at once; the first who takes the place has it. */
const mostAsked = 3;

/** Somebody leaves a place so late that nobody would find it by themselves: those who could step in are asked. */
@Injectable()
export class StandIns {
  constructor(
    @Inject(RosterSettings) private readonly settings: RosterSettings,
    @Inject(RosterMessages) private readonly roster: RosterMessages,
    @Inject(Messages) private readonly messages: Messages,
  ) {}

  /**
   * Asks for a place that was just left, where that is late, in the caller's transaction: first who stands by, then
   * whoever said that they come to this turnout and has no place then, here or elsewhere, if they may take this one; and tells those who
   * run the yard.
   * @param open the open place that stands in the place of the one that was left
   */
  async askFor(
    manager: EntityManager,
    caller: Caller,
    left: PlaceEntity,
    open: PlaceEntity,
    turnout: TurnoutEntity,
    now: number,
  ): Promise<void> {
    const { organisationId } = caller;
    const { lateHours } = await this.settings.of(organisationId, manager);
    if (left.state !== 'taken' || left.startsAt - now >= lateHours * 3_600_000) return;
    const zone = (await yardDays(manager, organisationId))?.timeZone ?? 'UTC';
    const hands = await crewHands(manager, organisationId);
    const { asked, standBy } = await whoCould(manager, { organisationId, hands, open, turnout, zone });
    if (asked.length > 0) await this.roster.wanted(manager, organisationId, open, asked, standBy);
    const name = hands.find((hand) => hand.id === left.volunteerId)?.name ?? 'Somebody';
    await this.messages.post(manager, {
      organisationId,
      to: await recipientsWith(manager, organisationId, 'coordinator'),
      kind: 'yard-notice',
      key: `left late ${left.id}`,
      subject: `${name} can’t come on ${turnout.heldOn}`,
      words:
        asked.length > 0
          ? `A place has come free. Asked to step in: ${named(hands, asked)}.`
          : 'A place has come free, and nobody who said that they come is free and may take it.',
      path: '/week',
    });
  }
}

interface Gap {
  organisationId: string;
  hands: readonly CrewHand[];
  open: PlaceEntity;
  turnout: TurnoutEntity;
  zone: string;
}

/**
 * Who could step in: those who stand by first, who may leave other work for it; then those with the fewest skills, so
 * that rare ones stay free for what nobody else can.
 */
async function whoCould(
  manager: EntityManager,
  { organisationId, hands, open, turnout, zone }: Gap,
): Promise<{ asked: string[]; standBy: ReadonlySet<string> }> {
  const places = await manager.findBy(PlaceEntity, { organisationId, turnoutId: turnout.id });
  const standing = places.filter((place) => place.state !== 'left');
  const swing = await swingAt(manager, organisationId, [turnout.id]);
  const standBy = new Set(swing.flatMap((row) => (row.leftAt === null ? [row.volunteerId] : [])));
  const saidNo = new Set([
    ...places.flatMap((place) => (place.state === 'left' ? (place.volunteerId ?? []) : [])),
    ...swing.flatMap((row) => (row.leftAt === null ? [] : [row.volunteerId])),
  ]);
  const isTheirs = (place: PlaceEntity, { id }: CrewHand) => place.volunteerId === id && overlap(place, open);
  const { id, heldOn, startsAt, endsAt } = turnout;
  const closed = await closedOn(manager, organisationId);
  const dated = { id, on: heldOn, startsAt, endsAt };
  const comes = ({ rules, exceptions }: CrewHand): boolean =>
    turnout.kind === null
      ? staysOf(rules, exceptions, [{ ...dated, isClosed: closed.has(heldOn) }], zone).some(
          (stay) => stay.from <= open.startsAt && open.endsAt <= stay.to,
        )
      : comesToWatch(rules, exceptions, dated, zone, closed);
  const then = await placesDuring(
    manager,
    organisationId,
    hands.map((hand) => hand.id),
    open,
  );
  const busy = new Set(
    then.flatMap((place) =>
      place.state === 'taken' && place.turnoutId !== turnout.id ? (place.volunteerId ?? []) : [],
    ),
  );
  const free = hands.filter(
    (hand) =>
      !saidNo.has(hand.id) &&
      !busy.has(hand.id) &&
      (standBy.has(hand.id) || !standing.some((place) => isTheirs(place, hand))) &&
      comes(hand),
  );
  const book = await GateBook.read(manager, organisationId, {
    volunteerIds: [...free.map((hand) => hand.id), ...standing.flatMap((place) => place.volunteerId ?? [])],
    taskIds: [open.taskId],
    days: new Map([[turnout.id, turnout.heldOn]]),
  });
  const skills = ({ levels }: CrewHand) => [...levels.values()].filter((level) => level >= 2).length;
  const others = (hand: CrewHand) => standing.filter((place) => !isTheirs(place, hand));
  const first = ({ id }: CrewHand) => Number(standBy.has(id));
  const asked = free
    .filter((hand) => book.findings(hand.id, open, others(hand)).every(({ weight }) => weight !== 'stop'))
    .sort((a, b) => first(b) - first(a) || skills(a) - skills(b) || a.id.localeCompare(b.id))
    .slice(0, mostAsked)
    .map((hand) => hand.id);
  return { asked, standBy };
}

const named = (hands: readonly CrewHand[], ids: readonly string[]): string =>
  ids.map((id) => hands.find((hand) => hand.id === id)?.name ?? '').join(', ');
