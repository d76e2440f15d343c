import { type HeldWatch, rosterWatches, type WatchFacts, type WatchSeat } from './watch-roster.js';

const hour = 3_600_000;

/** Watches of four hours one after the other, each with a place for the skill and one for a hand. */
const seatsOf = (watches: number): WatchSeat[] =>
  Array.from({ length: watches }, (_, w) => w).flatMap((w) =>
    [true, false].map((isSkilled) => ({
      placeId: `${w} ${isSkilled ? 'skilled' : 'hand'}`,
      turnoutId: String(w),
      startsAt: w * 4 * hour,
      endsAt: (w + 1) * 4 * hour,
      isSkilled,
      isAsked: false,
      taken: null,
    })),
  );

/** Whoever is below `skilled` has the skill; each may keep those watches that are named, or any. */
const crew = (people: number, skilled: number, comes: (person: number, watch: number) => boolean) =>
  ({
    most: Array.from({ length: people }, () => 12),
    may: (seat) =>
      Array.from({ length: people }, (_, person) => person)
        .filter((person) => (!seat.isSkilled || person < skilled) && comes(person, Number(seat.turnoutId)))
        .map((person) => ({ person, terms: [] })),
    stopped: (held) => held.map(() => false),
  }) satisfies WatchFacts;

const always = () => true;
const many = (held: HeldWatch[], person: number) => held.filter((one) => one.person === person).length;

function expectRested(held: readonly HeldWatch[]): void {
  for (const a of held)
    for (const b of held)
      if (a !== b && a.person === b.person)
        expect(
          Math.max(a.seat.startsAt - b.seat.endsAt, b.seat.startsAt - a.seat.endsAt),
        ).toBeGreaterThanOrEqual(10 * hour);
}

describe('the roster of watches', () => {
  it('fills 72 hours with a rested crew, and nobody has more watches than are needed', () => {
    const held = rosterWatches(seatsOf(18), crew(18, 18, always), 4);
    expect(held).toHaveLength(36);
    expectRested(held);
    for (let person = 0; person < 18; person++) expect(many(held, person)).toBe(2);
  });

  it('gives nobody two watches without ten hours between them, and leaves open what that leaves', () => {
    const held = rosterWatches(seatsOf(6), crew(2, 2, always), 6);
    expectRested(held);
    // Two people, 24 hours: each rests for the three watches after one, so each can keep two of six.
    expect(held).toHaveLength(4);
  });

  it('seats the skilled where nobody else can, before any hand', () => {
    const held = rosterWatches(seatsOf(3), crew(3, 3, always), 1);
    expect(held.map(({ seat }) => seat.placeId).sort()).toEqual(['0 skilled', '1 skilled', '2 skilled']);
  });

  it('keeps whoever has said yes, more often than others are asked too', () => {
    const seats = seatsOf(8);
    for (const w of [0, 4]) seats[2 * w].taken = 0;
    const held = rosterWatches(seats, crew(20, 10, always), 1);
    expect(many(held, 0)).toBe(2);
    expect(held).toHaveLength(16);
    for (let person = 1; person < 20; person++) expect(many(held, person)).toBeLessThanOrEqual(1);
  });

  it('asks nobody for a night that they have not named, nor whom the company stops', () => {
    const byDay = crew(6, 6, (_, watch) => watch % 6 < 3);
    const nights = rosterWatches(seatsOf(6), byDay, 3).filter(({ seat }) => Number(seat.turnoutId) >= 3);
    expect(nights).toEqual([]);
    const alone = {
      ...crew(4, 2, always),
      stopped: (held: readonly HeldWatch[]) => held.map((one) => one.person === 3),
    };
    expect(many(rosterWatches(seatsOf(3), alone, 3), 3)).toBe(0);
  });

  it('moves somebody to fill what would stay open', () => {
    // The first could keep either watch, the second only the earlier one; both are too near for one of them.
    const seats = seatsOf(4).filter(
      ({ isSkilled, turnoutId }) => isSkilled && turnoutId !== '1' && turnoutId !== '2',
    );
    const held = rosterWatches(
      seats,
      crew(2, 2, (person, watch) => person === 0 || watch === 0),
      2,
    );
    expect(held.map(({ seat, person }) => [seat.turnoutId, person]).sort()).toEqual([
      ['0', 1],
      ['3', 0],
    ]);
    // Of three blocks the last is left open unless what went before is moved.
    const only = crew(2, 2, (person, watch) => person === 0 || watch === 0);
    const far = seatsOf(6).filter(
      ({ isSkilled, turnoutId }) => isSkilled && ['0', '3', '5'].includes(turnoutId),
    );
    expect(rosterWatches(far, only, 1)).toHaveLength(2);
  });

  it('asks the gates only about the watches that a change touches, not about all', () => {
    let asks = 0;
    const few = {
      ...crew(40, 40, always),
      stopped: (held: readonly HeldWatch[], asked: number) => {
        asks += 1;
        // Four watches of two begin before anybody who kept the first is rested; all of them have 168 places.
        expect(asked).toBeLessThanOrEqual(8);
        return held.slice(0, asked).map(({ seat }) => Number(seat.turnoutId) % 2 === 1);
      },
    };
    const held = rosterWatches(seatsOf(84), few, 2);
    expectRested(held);
    expect(held.every(({ seat }) => Number(seat.turnoutId) % 2 === 0)).toBe(true);
    expect(asks).toBeGreaterThan(84);
    expect(asks).toBeLessThan(5000);
  });

  it('is empty without watches, and the same each time', () => {
    expect(rosterWatches([], crew(3, 1, always), 3)).toEqual([]);
    const some = crew(9, 4, (person, watch) => (person * 7 + watch * 3) % 4 !== 0);
    expect(rosterWatches(seatsOf(12), some, 3)).toEqual(rosterWatches(seatsOf(12), some, 3));
  });

  it('leaves as many on a day as whoever leads them can look after, and asks again those who are asked already', () => {
    const day = Array.from({ length: 6 }, (_, at): WatchSeat => ({
      ...{ placeId: String(at), turnoutId: 'launch', startsAt: 0, endsAt: 4 * hour },
      ...{ isSkilled: at === 0, isAsked: at === 5, taken: null },
    }));
    const facts: WatchFacts = {
      ...crew(9, 1, always),
      may: (seat) =>
        Array.from({ length: 9 }, (_, person) => person)
          .filter((person) => (person === 0) === seat.isSkilled)
          .map((person) => {
            const others = seat.isAsked && person !== 8;
            return { person, terms: others ? [{ kind: 'asked before', cost: 40 }] : [] };
          }),
      // One leads at most four.
      stopped: (held) => held.map(() => held.length > 5),
    };
    const held = rosterWatches(day, facts, 12);
    expect(held).toHaveLength(5);
    expect(held.map(({ seat }) => seat.placeId)).toContain('0');
    expect(held.find(({ person }) => person === 8)?.seat.placeId).toBe('5');
  });
});
