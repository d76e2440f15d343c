import fc from 'fast-check';
import { type Asked, crewOdds } from '../odds/crew-odds.js';
import { swingHands } from './swing-hands.js';

const seated = (work: number, chance: number, seats: number[] = []): Asked => ({
  chance,
  seated: [{ work, seats }],
  standsIn: [],
});
const spare = (chance: number, ...works: number[]) => ({
  chance,
  seated: [],
  standsIn: works.map((work) => ({ work, seats: [] })),
});

describe('who stands by', () => {
  it('are as many as it takes: of people who come 4 in 5 times, six for four places (binomial: 0.90112)', () => {
    const crew = Array.from({ length: 4 }, () => seated(0, 0.8));
    const more = Array.from({ length: 5 }, () => spare(0.8, 0));
    expect(swingHands([{ seats: [], least: 4 }], crew, more, 0.85)).toEqual([0, 1]);
  });

  it('are nobody where the crew is likely enough, and nobody who can’t help', () => {
    expect(swingHands([{ seats: [], least: 1 }], [seated(0, 0.9)], [spare(1, 0)], 0.85)).toEqual([]);
    const saw = [{ seats: [1], least: 1 }];
    expect(swingHands(saw, [seated(0, 0.5, [0])], [spare(1, 0)], 0.85)).toEqual([]);
  });

  it('come from work that can start without them, which then calls on them as before', () => {
    const works = [
      { seats: [], least: 1 },
      { seats: [], least: 1 },
    ];
    const could = [0, 1].map((work) => ({ work, seats: [] }));
    const third = { chance: 0.8, seated: [could[1]], standsIn: could };
    const crew = [seated(0, 0.8), seated(1, 0.95)];
    expect(swingHands(works, crew, [third], 0.9)).toEqual([0]);
    const odds = (people: Asked[]) => works.map((_, work) => crewOdds(works, people, work));
    const [before, after] = [
      odds([...crew, { ...third, standsIn: [] }]),
      odds([...crew, { ...third, seated: [] }]),
    ];
    expect(before[0]).toBeCloseTo(0.8, 12);
    expect(after[0]).toBeCloseTo(0.96, 12);
    expect(after[1]).toBeCloseTo(before[1], 12);
  });

  it('bring every crew to what is wished for, or leave nobody out who could still help', () => {
    const chance = fc.double({ min: 0.2, max: 0.95, noNaN: true });
    const works = [
      { seats: [], least: 2 },
      { seats: [], least: 1 },
    ];
    fc.assert(
      fc.property(
        fc.tuple(chance, chance, chance),
        fc.array(fc.tuple(chance, fc.subarray([0, 1], { minLength: 1 })), { maxLength: 6 }),
        ([a, b, c], more) => {
          const crew = [seated(0, a), seated(0, b), seated(1, c)];
          const all = more.map(([each, of]) => spare(each, ...of));
          const chosen = swingHands(works, crew, all, 0.85);
          const people = [...crew, ...chosen.map((i): Asked => ({ ...all[i], seated: [] }))];
          for (const work of [0, 1])
            if (crewOdds(works, people, work) < 0.85)
              expect(
                all.every(
                  (one, i) => chosen.includes(i) || !one.standsIn.some((could) => could.work === work),
                ),
              ).toBe(true);
        },
      ),
    );
  });
});
