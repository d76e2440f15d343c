import type { Caller } from '@ribband/access';
import { type CrewHand, crewHands, recipientsWith, staysOf } from '@ribband/crew';
import { Messages } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { RosterMessages } from '../news/roster-messages.js';
import { RosterSettings } from '../settings/roster-settings.service.js';
import { overlap } from '../turnouts/relay-out.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { yardDays } from '../turnouts/yard-days.js';
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
   * Asks for a place that was just left, where that is late, in the caller's transaction: whoever said that they come to
   * this turnout, has no place then and may take this one; and tells those who run the yard.
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
    const asked = await whoCould(manager, { organisationId, hands, open, turnout, zone });
    if (asked.length > 0) await this.roster.wanted(manager, organisationId, open, asked);
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

/** Who could step in, those with the fewest skills first, so that rare ones stay free for what nobody else can. */
async function whoCould(
  manager: EntityManager,
  { organisationId, hands, open, turnout, zone }: Gap,
): Promise<string[]> {
  const places = await manager.findBy(PlaceEntity, { organisationId, turnoutId: turnout.id });
  const standing = places.filter((place) => place.state !== 'left');
  const saidNo = new Set(
    places.flatMap((place) => (place.state === 'left' ? (place.volunteerId ?? []) : [])),
  );
  const dated = [{ id: turnout.id, on: turnout.heldOn, startsAt: turnout.startsAt, endsAt: turnout.endsAt }];
  const free = hands.filter(
    (hand) =>
      !saidNo.has(hand.id) &&
      !standing.some((place) => place.volunteerId === hand.id && overlap(place, open)) &&
      staysOf(hand.rules, hand.exceptions, dated, zone).some(
        (stay) => stay.from <= open.startsAt && open.endsAt <= stay.to,
      ),
  );
  const book = await GateBook.read(manager, organisationId, {
    volunteerIds: [...free.map((hand) => hand.id), ...standing.flatMap((place) => place.volunteerId ?? [])],
    taskIds: [open.taskId],
    days: new Map([[turnout.id, turnout.heldOn]]),
  });
  const skills = ({ levels }: CrewHand) => [...levels.values()].filter((level) => level >= 2).length;
  return free
    .filter((hand) => book.findings(hand.id, open, standing).every(({ weight }) => weight !== 'stop'))
    .sort((a, b) => skills(a) - skills(b) || a.id.localeCompare(b.id))
    .slice(0, mostAsked)
    .map((hand) => hand.id);
}

const named = (hands: readonly CrewHand[], ids: readonly string[]): string =>
  ids.map((id) => hands.find((hand) => hand.id === id)?.name ?? '').join(', ');
