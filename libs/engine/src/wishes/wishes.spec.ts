import { person, problem, task, turnout } from '../../../../test/engine/small-problem.js';
import type { Outcome } from '../plan.js';
import type { Problem } from '../problem.js';
import { solve } from '../solve.js';
import { smallest } from './smallest.js';

const mornings = [turnout(0, 100), turnout(1000, 1100)];
const skills = ['sawyer', 'caulker'].map((name) => ({ id: name, name }));
const seat = (skill: number) => ({ skill, level: 2, count: 1, clearances: [] });
const two = { crew: { min: 2, efficient: 2, max: 2 } };

function noPlan(parts: Partial<Problem>): Extract<Outcome, { kind: 'no plan' }> {
  const outcome = solve(problem({ turnouts: mornings, skills, ...parts }), { seed: 1, schedules: 50 });
  if (outcome.kind === 'plan') throw new Error('there is a plan');
  return outcome;
}

describe('What can’t all hold', () => {
  it('names the two seats whose people never come on one day, and not the crew', () => {
    const people = ['Anselm', 'Bram', 'Cass'].map((name, k) =>
      person(name, [k === 0 ? 3 : 0, k === 1 ? 3 : 0], mornings),
    );
    people[0].stays = people[0].stays.slice(0, 1);
    people[1].stays = people[1].stays.slice(1);
    const steam = task('steam', 50, { ...two, seats: [seat(0), seat(1)] });
    expect(noPlan({ people, tasks: [steam] })).toEqual({
      kind: 'no plan',
      wishes: [
        { kind: 'seat', task: 0, seat: 0, have: null, need: 1 },
        { kind: 'seat', task: 0, seat: 1, have: null, need: 1 },
      ],
      sets: [[0, 1]],
    });
  });

  it('names the card together with the seat where those with the skill have no card', () => {
    const people = [
      person('Anselm', [3, 0], mornings),
      person('Bram', [0, 0], mornings, { clearances: [{ clearance: 0, until: null }] }),
    ];
    const saw = task('saw', 50, {
      crew: { min: 1, efficient: 1, max: 1 },
      seats: [seat(0)],
      clearances: [0],
    });
    const { wishes, sets } = noPlan({ people, clearances: [{ id: 'c', name: 'first aid' }], tasks: [saw] });
    expect(wishes.map(({ kind }) => kind)).toEqual(['card', 'seat']);
    expect(sets).toEqual([[0, 1]]);
  });

  it('tells two tasks apart that each ask too much', () => {
    const people = [person('Anselm', [3, 0], mornings)];
    const tasks = [
      task('caulk', 50, { crew: { min: 1, efficient: 1, max: 1 }, seats: [seat(1)] }),
      task('lift', 50, two),
      task('saw', 50, { crew: { min: 1, efficient: 1, max: 1 }, seats: [seat(0)] }),
    ];
    expect(noPlan({ people, tasks })).toMatchObject({
      wishes: [
        { kind: 'seat', task: 0, have: 0, need: 1 },
        { kind: 'crew', task: 1, have: 1, need: 2 },
      ],
      sets: [[0], [1]],
    });
  });

  it('names the limit alone where two openings need each other, and not what else is asked for', () => {
    const people = [person('Anselm', [3, 3], mornings, { minutesAWeek: 90 })];
    const { wishes, sets } = noPlan({
      people,
      elements: ['12', '13'].map((name) => ({ id: name, name })),
      openingLimits: [
        { id: 'all', name: 'no more than two', elements: [0, 1], atMost: 2 },
        { id: 'one', name: 'never two neighbours', elements: [0, 1], atMost: 1 },
      ],
      tasks: [
        task('draw 12', 10, { opens: [0] }),
        task('draw 13', 10, { opens: [1] }),
        task('set both', 10, { closes: [0, 1], crew: { min: 1, efficient: 1, max: 1 }, seats: [seat(0)] }),
      ],
      links: [0, 1].map((before) => ({
        before,
        after: 2,
        relation: 'finish-to-start' as const,
        lag: 0,
        lagKind: 'working' as const,
      })),
    });
    expect(wishes).toEqual([{ kind: 'opening', task: 0, limit: 1 }]);
    expect(sets).toEqual([[0]]);
  });

  it('is a smallest set: each was left out once and is needed', () => {
    const asked = Array.from({ length: 100 }, (_, k) => k);
    const needs = (some: number[]) => [7, 8, 63].every((one) => some.includes(one));
    let tests = 0;
    const found = smallest(asked, (some) => (tests++, needs(some)), 200);
    expect(found).toEqual([7, 8, 63]);
    expect(tests).toBeLessThan(60);
    expect(smallest(asked, needs, 5)).toBeNull();
  });
});
