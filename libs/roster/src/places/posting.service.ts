import { type Finding } from '@ribband/crew';
import { Bus, newId, type Refusal, YardClock } from '@ribband/platform';
import { OpeningGate } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { RosterMessages } from '../news/roster-messages.js';
import { tellRoster } from '../roster-news.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { GateBook } from './gate-book.js';
import { PlaceEntity } from './place.entity.js';
import { reconcilePlaces, type SeatToPost } from './reconcile-places.js';

/** Somebody whom the plan names and the gates do not let in; the seat is posted open instead. */
export interface TurnedAway {
  seat: SeatToPost;
  findings: Finding[];
}

export interface Posted {
  added: number;
  withdrawn: number;
  turnedAway: TurnedAway[];
  /** Work that is not posted because the hull must wait. */
  waits: { seat: SeatToPost; stops: Refusal[] }[];
}

/** Turns seats that a plan wants into places that people see. */
@Injectable()
export class Posting {
  constructor(
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(OpeningGate) private readonly openings: OpeningGate,
    @Inject(RosterMessages) private readonly messages: RosterMessages,
  ) {}

  /**
   * Posts the seats of some turnouts, in the caller's transaction. Turnouts that are over or called off are left as
   * they are. Posting the same twice changes nothing the second time; what people took or left stays.
   */
  async post(
    manager: EntityManager,
    organisationId: string,
    turnoutIds: readonly string[],
    seats: readonly SeatToPost[],
    planId: string,
  ): Promise<Posted> {
    const now = await this.clock.now(organisationId, manager);
    const turnouts = (
      await manager.findBy(TurnoutEntity, { organisationId, id: In([...turnoutIds]) })
    ).filter((turnout) => turnout.cancelledAt === null && turnout.endsAt > now);
    const days = new Map(turnouts.map((turnout) => [turnout.id, turnout.heldOn]));
    const standing = await manager.find(PlaceEntity, {
      where: { organisationId, turnoutId: In([...days.keys()]) },
      order: { id: 'ASC' },
    });
    const asked = seats.filter((seat) => days.has(seat.turnoutId));
    const stops = await this.openings.stops(manager, organisationId, asked);
    const wanted = asked.filter((_, i) => stops[i]?.length === 0);
    const waits = asked.flatMap((seat, i) => (stops[i]?.length ? [{ seat, stops: stops[i] }] : []));
    const book = await GateBook.read(manager, organisationId, {
      volunteerIds: [...standing, ...wanted].flatMap((seat) => seat.volunteerId ?? []),
      taskIds: wanted.map((seat) => seat.taskId),
      days,
    });
    const taken = standing.filter((place) => place.state === 'taken');
    const { let: letIn, turnedAway } = throughTheGates(book, wanted, taken);
    const changes = reconcilePlaces(standing, letIn);
    if (changes.withdraw.length > 0) await manager.delete(PlaceEntity, { id: In(changes.withdraw) });
    const rows = changes.add.map((seat) => placeOf(seat, organisationId, planId));
    for (let at = 0; at < rows.length; at += 200) await manager.insert(PlaceEntity, rows.slice(at, at + 200));
    const gone = standing.filter((place) => changes.withdraw.includes(place.id));
    await this.messages.posted(manager, organisationId, newToThem(rows, gone));
    await this.messages.lost(manager, organisationId, newToThem(gone, rows));
    if (rows.length > 0 || changes.withdraw.length > 0)
      tellRoster(this.bus, manager, organisationId, [...days.keys()]);
    return { added: rows.length, withdrawn: changes.withdraw.length, turnedAway, waits };
  }
}

/**
 * Asks the gates for every seat that names somebody, with all the others as company, until nobody else is turned
 * away: who learns beside somebody who is turned away can't stay either.
 */
function throughTheGates(
  book: Pick<GateBook, 'findings'>,
  wanted: readonly SeatToPost[],
  taken: readonly PlaceEntity[],
): { let: SeatToPost[]; turnedAway: TurnedAway[] } {
  const turnedAway: TurnedAway[] = [];
  let seats = [...wanted];
  for (let changed = true; changed;) {
    changed = false;
    const company = [...seats, ...taken];
    seats = seats.map((seat) => {
      if (seat.volunteerId === null) return seat;
      const findings = book
        .findings(seat.volunteerId, seat, company)
        .filter((finding) => finding.weight === 'stop');
      if (findings.length === 0) return seat;
      changed = true;
      turnedAway.push({ seat, findings });
      return { ...seat, volunteerId: null, why: null };
    });
  }
  return { let: seats, turnedAway };
}

function placeOf(seat: SeatToPost, organisationId: string, planId: string): PlaceEntity {
  return {
    id: newId('place'),
    organisationId,
    version: 1,
    planId,
    state: 'posted',
    takenAt: null,
    leftAt: null,
    leftReason: null,
    ...seat,
  };
}

/** Those of the places that say something to their people which the others do not: the same work at the same time is no news. */
function newToThem(places: readonly PlaceEntity[], others: readonly PlaceEntity[]): PlaceEntity[] {
  const said = ({ volunteerId, taskId, startsAt, endsAt }: PlaceEntity) =>
    [volunteerId, taskId, startsAt, endsAt].join(' ');
  const known = new Set(others.map(said));
  return places.filter((place) => place.volunteerId !== null && !known.has(said(place)));
}
