import { type Finding } from '@ribband/crew';
import { Bus, type Refusal, YardClock } from '@ribband/platform';
import { OpeningGate } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { RosterMessages } from '../news/roster-messages.js';
import { tellRoster } from '../roster-news.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { GateBook } from './gate-book.js';
import { endLessons } from './learners.js';
import { newPlace, PlaceEntity } from './place.entity.js';
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
  /** Of what stood before, the places of who would learn beside somebody who is not on the work any more. */
  lessonsOver: PlaceEntity[];
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
   * they are. Posting the same twice changes nothing the second time; what people took or left stays, but for who would
   * learn beside somebody who is not there any more.
   * @param planId null where the seats are no plan's
   */
  async post(
    manager: EntityManager,
    organisationId: string,
    turnoutIds: readonly string[],
    seats: readonly SeatToPost[],
    planId: string | null,
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
    const changes = reconcilePlaces(
      standing,
      letIn.filter((seat) => !seat.teacherId || seat.volunteerId !== null),
    );
    if (changes.withdraw.length > 0) await manager.delete(PlaceEntity, { id: In(changes.withdraw) });
    const rows = changes.add.map((seat) => newPlace({ ...seat, organisationId, planId }));
    for (let at = 0; at < rows.length; at += 200) await manager.insert(PlaceEntity, rows.slice(at, at + 200));
    const over = new Set((await endLessons(manager, [...days.keys()])).map(({ id }) => id));
    const added = rows.filter(({ id }) => !over.has(id));
    const lessonsOver = standing.filter(({ id }) => over.has(id));
    const gone = standing.filter((place) => changes.withdraw.includes(place.id));
    await this.messages.posted(manager, organisationId, newToThem(added, gone));
    await this.messages.lost(manager, organisationId, newToThem(gone, added));
    await this.messages.lessonsOver(manager, organisationId, lessonsOver);
    if (added.length + gone.length + lessonsOver.length > 0)
      tellRoster(this.bus, manager, organisationId, [...days.keys()]);
    return { added: added.length, withdrawn: gone.length, turnedAway, lessonsOver, waits };
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

/** Those of the places that say something to their people which the others do not: the same work at the same time is no news. */
function newToThem(places: readonly PlaceEntity[], others: readonly PlaceEntity[]): PlaceEntity[] {
  const said = ({ volunteerId, taskId, role, startsAt, endsAt }: PlaceEntity) =>
    [volunteerId, taskId, startsAt, endsAt, role].join(' ');
  const known = new Set(others.map(said));
  return places.filter((place) => place.volunteerId !== null && !known.has(said(place)));
}
