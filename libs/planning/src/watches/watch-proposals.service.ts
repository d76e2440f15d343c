import { createHash } from 'node:crypto';
import { Audit, AuditEntry, type Caller, permit } from '@ribband/access';
import { type CrewHand, crewHands } from '@ribband/crew';
import { Database, refuse, Revisions } from '@ribband/platform';
import { haulOutInForce } from '@ribband/repair';
import {
  AllHands,
  closedOn,
  GateBook,
  overlap,
  PlaceEntity,
  placesDuring,
  type Posted,
  Posting,
  type SeatToPost,
  type TurnoutEntity,
  type TurnoutKind,
  Watches,
} from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { factsOf, mostOfAll, seatOf } from './watch-facts.js';
import { type HeldWatch, rosterWatches, type WatchFacts, type WatchSeat } from './watch-roster.js';

export interface ProposedWatchPlace {
  place: PlaceEntity;
  hand: CrewHand | null;
  why: string | null;
  /** Who could be asked instead. */
  could: CrewHand[];
}

export interface ProposedWatch {
  turnout: TurnoutEntity;
  places: ProposedWatchPlace[];
  /** What must be seen to before it, in sentences. */
  notices: string[];
}

/** What is said of a kind. */
const words = {
  watch: {
    changed: 'The watches have changed since this was proposed.',
    same: 'These watches are posted already, as this list has them.',
    twice: 'would keep one watch twice',
    asked: 'The coordinator asks you to keep this watch.',
    operation: 'postWatches',
    why: 'watches were posted',
  },
  'all-hands': {
    changed: 'The all-hands day has changed since this was proposed.',
    same: 'These roles are posted already, as this list has them.',
    twice: 'would have two roles at one day',
    asked: 'The coordinator asks you to this role.',
    operation: 'postAllHands',
    why: 'an all-hands day was posted',
  },
} as const;

/** What the watches to come are rostered from. */
interface WatchBasis {
  watches: TurnoutEntity[];
  /** Those that nobody has left. */
  places: PlaceEntity[];
  hands: CrewHand[];
  seats: WatchSeat[];
  facts: WatchFacts;
  book: GateBook;
  /** What the crew has while they go on, themselves among it. */
  around: PlaceEntity[];
}

/**
 * Who keeps which watch, or has which role on an all-hands day: proposed, and posted as the coordinator has it. Both are
 * rostered alike; “watch” below is either.
 */
@Injectable()
export class WatchProposals {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Watches) private readonly watches: Watches,
    @Inject(AllHands) private readonly allHands: AllHands,
    @Inject(Posting) private readonly posting: Posting,
  ) {}

  /** @param mostEach watches that nobody is to be asked for more than */
  async propose(
    caller: Caller,
    mostEach: number = mostOfAll,
    kind: TurnoutKind = 'watch',
  ): Promise<ProposedWatch[]> {
    permit(caller, 'coordinator', 'director');
    if (mostEach < 1 || mostEach > mostOfAll)
      refuse('BAD_INPUT', `Nobody keeps ${mostEach} watches.`, {
        field: 'mostEach',
        remedy: `From 1 to ${mostOfAll}.`,
      });
    return this.database.snapshot(async (manager) => {
      const basis = await this.read(manager, caller.organisationId, kind);
      return told(basis, kind, rosterWatches(basis.seats, basis.facts, mostEach));
    });
  }

  /**
   * Posts people to places on watches. Whoever has said yes stays; a place that is not named stays as it is.
   * @returns whom a gate did not let in, in sentences: their places stand open
   */
  async post(
    caller: Caller,
    wanted: readonly { placeId: string; volunteerId: string | null }[],
    kind: TurnoutKind = 'watch',
  ): Promise<{ watches: TurnoutEntity[]; turnedAway: string[] }> {
    permit(caller, 'coordinator', 'director');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const basis = await this.read(manager, organisationId, kind);
      const asked = new Map(wanted.map(({ placeId, volunteerId }) => [placeId, volunteerId]));
      const known = new Map(basis.places.map((place) => [place.id, place]));
      const names = new Map(basis.hands.map(({ id, name }) => [id, name]));
      const list = digestOf(wanted);
      for (const [placeId, volunteerId] of asked) {
        if (!known.has(placeId) && (await lastPosted(manager, organisationId, kind)) === list)
          refuse('ALREADY_EXISTS', words[kind].same, {
            field: 'places',
            remedy: 'Have them proposed again to change them.',
          });
        if (!known.has(placeId))
          refuse('PLACE_NOT_OPEN', words[kind].changed, {
            field: 'places.placeId',
            remedy: 'Have them proposed again.',
          });
        if (volunteerId !== null && !names.has(volunteerId))
          refuse('NOT_FOUND', 'There is no such person in the crew.', { field: 'places.volunteerId' });
      }
      const seats = basis.places.map((place): SeatToPost => {
        const volunteerId = place.state === 'taken' ? place.volunteerId : (asked.get(place.id) ?? null);
        const isKept = place.state === 'taken' || !asked.has(place.id);
        const who = isKept ? place.volunteerId : volunteerId;
        const why = who === null ? null : who === place.volunteerId ? place.why : words[kind].asked;
        return { ...seatOf(place), volunteerId: who, why };
      });
      const twice = seats.find((seat) => seats.some((other) => other !== seat && sameHand(other, seat)));
      if (twice)
        refuse('ALREADY_ELSEWHERE', `${names.get(twice.volunteerId ?? '') ?? ''} ${words[kind].twice}.`, {
          field: 'places.volunteerId',
          remedy: 'Give one of the two places to somebody else.',
        });
      const isBusy = (seat: SeatToPost) => isTakenElsewhere(basis.around, seat);
      const away = seats
        .filter(isBusy)
        .map(
          ({ volunteerId }) =>
            `${names.get(volunteerId ?? '') ?? ''} has said yes to something else then. The place stands open.`,
        );
      const free = seats.map((seat) => (isBusy(seat) ? { ...seat, volunteerId: null, why: null } : seat));
      const ids = basis.watches.map(({ id }) => id);
      const posted = await this.posting.post(manager, organisationId, ids, free, null);
      await this.audit.note(manager, caller, words[kind].operation, ids[0] ?? '', {
        added: posted.added,
        withdrawn: posted.withdrawn,
        list,
      });
      await this.revisions.requestPlan(manager, organisationId, words[kind].why);
      return {
        watches: basis.watches,
        turnedAway: [
          ...away,
          ...new Set(posted.waits.map((wait) => sayWaits(basis.book, wait))),
          ...posted.turnedAway.map(
            ({ seat, findings }) =>
              `${names.get(seat.volunteerId ?? '') ?? ''}: ${findings.map(({ words }) => words).join(' ')} The place stands open.`,
          ),
        ],
      };
    });
  }

  /** Watches that have begun are as they are. */
  private async read(manager: EntityManager, organisationId: string, kind: TurnoutKind): Promise<WatchBasis> {
    const book = kind === 'watch' ? this.watches : this.allHands;
    const watches = await book.toBegin(organisationId, manager);
    const days = new Map(watches.map(({ id, heldOn }) => [id, heldOn]));
    const all = await manager.find(PlaceEntity, {
      where: { organisationId, turnoutId: In([...days.keys()]) },
      order: { startsAt: 'ASC', level: 'DESC', role: 'ASC', id: 'ASC' },
    });
    const places = all.filter(({ state }) => state !== 'left');
    const hands = await crewHands(manager, organisationId);
    const ids = hands.map(({ id }) => id);
    const gates = await GateBook.read(manager, organisationId, {
      volunteerIds: ids,
      taskIds: places.map(({ taskId }) => taskId),
      days,
    });
    const zone = (await haulOutInForce(manager, organisationId))?.timeZone ?? 'UTC';
    const closed = await closedOn(manager, organisationId);
    const span = {
      startsAt: Math.min(...watches.map(({ startsAt }) => startsAt)),
      endsAt: Math.max(...watches.map(({ endsAt }) => endsAt)),
    };
    const around = watches.length > 0 ? await placesDuring(manager, organisationId, ids, span) : [];
    const elsewhere = around.filter(({ turnoutId }) => !days.has(turnoutId));
    const seats = places.map((place): WatchSeat => ({
      placeId: place.id,
      turnoutId: place.turnoutId,
      startsAt: place.startsAt,
      endsAt: place.endsAt,
      isSkilled: place.skillId !== null || place.cardKindId !== null,
      isAsked: place.volunteerId !== null,
      taken: place.state === 'taken' ? ids.indexOf(place.volunteerId ?? '') : null,
    }));
    const facts = factsOf({ watches, all, hands, book: gates, zone, closed, elsewhere });
    return { watches, places, hands, seats, book: gates, facts, around };
  }
}

/** By which a list is known again. */
const digestOf = (wanted: readonly { placeId: string; volunteerId: string | null }[]): string =>
  createHash('sha256')
    .update(wanted.map(({ placeId, volunteerId }) => `${placeId} ${volunteerId ?? ''}`).join('\n'))
    .digest('hex');

/** The list that was posted last. */
async function lastPosted(
  manager: EntityManager,
  organisationId: string,
  kind: TurnoutKind,
): Promise<unknown> {
  const last = await manager.findOne(AuditEntry, {
    where: { organisationId, operation: words[kind].operation },
    order: { at: 'DESC', id: 'DESC' },
  });
  return (last?.facts as Record<string, unknown> | undefined)?.['list'];
}

const sameHand = (a: SeatToPost, b: SeatToPost): boolean =>
  a.volunteerId !== null && a.volunteerId === b.volunteerId && a.turnoutId === b.turnoutId;

/** Whether somebody who is asked has said yes to something else at the same time. */
function isTakenElsewhere(around: readonly PlaceEntity[], seat: SeatToPost): boolean {
  return around.some(
    (place) =>
      place.volunteerId === seat.volunteerId &&
      place.turnoutId !== seat.turnoutId &&
      place.state === 'taken' &&
      overlap(place, seat),
  );
}

/** "“Float watch” is not posted: frame 13 must wait." */
function sayWaits(book: GateBook, { seat, stops }: Posted['waits'][number]): string {
  const title = book.job(seat.taskId)?.task.title ?? '';
  return `“${title}” is not posted, and its places are taken back: ${stops.map(({ message }) => message).join(' ')}`;
}

function told(
  { watches, places, hands, facts, seats, book }: WatchBasis,
  kind: TurnoutKind,
  held: HeldWatch[],
): ProposedWatch[] {
  const holder = new Map(held.map(({ seat, person }) => [seat.placeId, person]));
  const count = (person: number) => held.filter((one) => one.person === person).length;
  return watches.map((turnout) => {
    const own = places.filter(({ turnoutId }) => turnoutId === turnout.id);
    const ids = own.flatMap(({ id }) => hands[holder.get(id) ?? -1]?.id ?? []);
    return {
      turnout,
      notices: book
        .turnoutFindings({ turnoutId: turnout.id, startsAt: turnout.startsAt, endsAt: turnout.endsAt }, ids)
        .map(({ words }) => words),
      places: own.map((place): ProposedWatchPlace => {
        const seat = seats.find(({ placeId }) => placeId === place.id);
        const person = holder.get(place.id);
        const hand = person === undefined ? null : (hands[person] ?? null);
        return {
          place,
          hand,
          why: hand && (place.state === 'taken' ? 'Has said yes.' : whyProposed(kind, count(person ?? -1))),
          could: (seat ? facts.may(seat) : []).flatMap((one) => hands[one.person] ?? []),
        };
      }),
    };
  });
}

function whyProposed(kind: TurnoutKind, watches: number): string {
  if (kind === 'all-hands') return 'Said they can come then.';
  return watches === 1
    ? 'Said they can come then; the only watch of theirs.'
    : `Said they can come then; one of ${watches} watches of theirs.`;
}
