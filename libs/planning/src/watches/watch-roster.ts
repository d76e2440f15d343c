import { assignRoster, type CostTerm } from '@ribband/engine';

/** One person's place on a watch. Instants are epoch milliseconds; people are indices of those given. */
export interface WatchSeat {
  placeId: string;
  turnoutId: string;
  startsAt: number;
  endsAt: number;
  /** Seats for a skill are filled before those for a hand. */
  isSkilled: boolean;
  /** Whether somebody is asked already, who goes before others. */
  isAsked: boolean;
  /** Who has said yes; null for nobody. */
  taken: number | null;
}

export interface WatchFacts {
  /** Most watches of each person, by what they have said of themselves. */
  most: readonly number[];
  /** Who may take a seat, as far as that hangs on nobody else, with what speaks against each. */
  may(seat: WatchSeat): readonly { person: number; terms: CostTerm[] }[];
  /** Of the first `asked` people on seats, whom exactly all these others keep from theirs. */
  stopped(held: readonly HeldWatch[], asked: number): boolean[];
}

export interface HeldWatch {
  seat: WatchSeat;
  person: number;
}

/** How often it is tried at most, in all, to move somebody: each asks the gates about two watches. */
const mostTries = 1000;

/** Between two watches of one person: as long as the gates ask between shifts. Common practice, no source. */
const rest = 10 * 3_600_000;

/** What each watch that somebody has already weighs, in points of the roster. Common practice, no source. */
const watchBefore = 10;

/**
 * Who keeps which watch. As many watches as leave nobody rested for a second one are rostered together, by the weekly
 * roster's flow of least cost: skilled places before hands, whoever has fewer watches before others. Nobody is asked to
 * more than `mostEach`, nor to two without rest between them; who has said yes stays, and may have more.
 *
 * Exact for each such block, not for all of them together: so what stays open is tried again with one other person moved.
 */
export function rosterWatches(seats: readonly WatchSeat[], facts: WatchFacts, mostEach: number): HeldWatch[] {
  const inOrder = [...seats].sort(
    (a, b) => a.startsAt - b.startsAt || Number(b.isSkilled) - Number(a.isSkilled),
  );
  const taken = inOrder.flatMap((seat): HeldWatch[] =>
    seat.taken === null ? [] : [{ seat, person: seat.taken }],
  );
  const book: Book = { facts, mostEach, held: [], own: new Map(), tries: mostTries };
  change(book, [], taken);
  for (const block of blocksOf(inOrder)) change(book, [], blockOf(book, block));
  const filled = new Set(book.held.map(({ seat }) => seat));
  for (const seat of inOrder) if (!filled.has(seat)) fillAfterAll(book, seat);
  return book.held;
}

interface Book {
  facts: WatchFacts;
  mostEach: number;
  /** Who has which seat so far. */
  held: HeldWatch[];
  /** The same by person. */
  own: Map<number, HeldWatch[]>;
  /** How many are left. */
  tries: number;
}

function change(book: Book, out: readonly HeldWatch[], added: readonly HeldWatch[]): void {
  book.held = [...book.held.filter((one) => !out.includes(one)), ...added];
  for (const { person } of [...out, ...added])
    book.own.set(
      person,
      book.held.filter((one) => one.person === person),
    );
}

/**
 * Whom at some watches the others there, and their own other watches, keep from theirs. What else is held has no say in
 * it, so it is not looked at.
 */
function stoppedAt(facts: WatchFacts, held: readonly HeldWatch[], watches: ReadonlySet<string>): HeldWatch[] {
  const there = held.filter(({ seat }) => watches.has(seat.turnoutId));
  const people = new Set(there.map(({ person }) => person));
  const theirs = held.filter(({ seat, person }) => !watches.has(seat.turnoutId) && people.has(person));
  const stopped = facts.stopped([...there, ...theirs], there.length);
  return there.filter((_, i) => stopped[i]);
}

/** Seats in rows of watches of which nobody can keep two. */
function blocksOf(seats: readonly WatchSeat[]): WatchSeat[][] {
  const blocks: WatchSeat[][] = [];
  for (const seat of seats) {
    const block = blocks.at(-1);
    if (block?.[0] && seat.startsAt - block[0].endsAt < rest) block.push(seat);
    else blocks.push([seat]);
  }
  return blocks;
}

function blockOf(book: Book, block: readonly WatchSeat[]): HeldWatch[] {
  const open = block
    .filter(({ taken }) => taken === null)
    .sort(
      (a, b) =>
        Number(b.isSkilled) - Number(a.isSkilled) ||
        Number(b.isAsked) - Number(a.isAsked) ||
        a.startsAt - b.startsAt,
    );
  const watches = [...new Set(open.map(({ turnoutId }) => turnoutId))];
  const once = { turnouts: watches.map((_, w) => w), most: 1 };
  const barred = new Set<string>();
  for (;;) {
    const { seated } = assignRoster({
      people: book.facts.most.map(() => ({ quotas: [once] })),
      berths: open.map((seat, rank) => ({
        turnout: watches.indexOf(seat.turnoutId),
        rank,
        may: candidates(book, seat).filter(({ person }) => !barred.has(keyOf(person, seat))),
        fixed: null,
      })),
    });
    const added = seated.flatMap(({ berth, person }): HeldWatch[] => {
      const seat = open[berth];
      return seat ? [{ seat, person }] : [];
    });
    const stopped = stoppedAt(book.facts, [...book.held, ...added], new Set(watches));
    // A crew too large for who leads it is stopped whole: so one goes at a time, the last one first.
    const out = added
      .filter((one) => stopped.includes(one))
      .sort((a, b) => open.indexOf(b.seat) - open.indexOf(a.seat))[0];
    if (!out) return added;
    barred.add(keyOf(out.person, out.seat));
  }
}

/** Who could take a seat beside what they have, the watches that they have weighed. */
function candidates(book: Book, seat: WatchSeat): { person: number; terms: CostTerm[] }[] {
  return book.facts.may(seat).flatMap(({ person, terms }) => {
    const own = book.own.get(person) ?? [];
    if (!isFree(book, person, own, seat)) return [];
    const before: CostTerm = { kind: 'dull again', cost: watchBefore * own.length };
    return [{ person, terms: [...terms, before] }];
  });
}

/** @param own what they have */
function isFree(book: Book, person: number, own: readonly HeldWatch[], seat: WatchSeat): boolean {
  if (own.length >= Math.min(book.mostEach, book.facts.most[person] ?? 0)) return false;
  return !own.some((one) => isTooNear(one.seat, seat));
}

/** Gives an open seat to whoever is free for it if one of their watches, that hinders them, goes to somebody else. */
function fillAfterAll(book: Book, seat: WatchSeat): void {
  const [free] = candidates(book, seat);
  const ways: Iterable<Way> = free
    ? [{ out: [], added: [{ seat, person: free.person }] }]
    : swaps(book, seat);
  for (const { out, added } of ways) {
    if (!free && book.tries-- <= 0) return;
    const held = [...book.held.filter((one) => !out.includes(one)), ...added];
    const watches = new Set(added.map((one) => one.seat.turnoutId));
    if (stoppedAt(book.facts, held, watches).some((one) => one.seat.taken === null)) continue;
    change(book, out, added);
    return;
  }
}

interface Way {
  out: HeldWatch[];
  added: HeldWatch[];
}

function* swaps(book: Book, seat: WatchSeat): Generator<Way> {
  for (const { person } of book.facts.may(seat)) {
    const own = book.own.get(person) ?? [];
    for (const one of own.filter((other) => other.seat.taken === null)) {
      const without = own.filter((other) => other !== one);
      if (!isFree(book, person, without, seat)) continue;
      const next = candidates(book, one.seat).find((other) => other.person !== person);
      if (next)
        yield {
          out: [one],
          added: [
            { seat, person },
            { seat: one.seat, person: next.person },
          ],
        };
    }
  }
}

const isTooNear = (a: WatchSeat, b: WatchSeat): boolean =>
  Math.max(a.startsAt - b.endsAt, b.startsAt - a.endsAt) < rest;

const keyOf = (person: number, seat: WatchSeat): string => `${person} ${seat.turnoutId}`;
