import { person, problem, turnout, work } from '../../../../test/engine/small-problem.js';
import { scarcestSkills } from './scarcest.js';

const days = [turnout(0, 300), turnout(1000, 1300), turnout(2000, 2300)];
const skills = ['sawyer', 'caulker'].map((name) => ({ id: name, name }));
const seat = (skill: number) => [{ skill, level: 2, count: 1, clearances: [] }];
const one = { min: 1, efficient: 1, max: 1 };

describe('The skill that runs short first', () => {
  it('is the one with the most to do for the hours that it has, and its hours are counted', () => {
    const people = [person('Anselm', [3, 0], days), person('Bram', [0, 3], days)];
    const tasks = [
      work('saw', 500, 1, { crew: one, seats: seat(0) }),
      work('caulk', 300, 1, { crew: one, seats: seat(1) }),
    ];
    expect(scarcestSkills(problem({ turnouts: days, skills, people, tasks }), 2300)).toMatchObject({
      skills: [0],
      people: [0],
      needed: 500,
      there: 900,
    });
  });

  it('is told where it is short outright, and not at all where no skill is asked for', () => {
    const people = [person('Anselm', [3, 0], days.slice(0, 1))];
    const saws = ['12', '13'].map((name) => work(name, 250, 1, { crew: one, seats: seat(0) }));
    expect(scarcestSkills(problem({ turnouts: days, skills, people, tasks: saws }), 2300)).toMatchObject({
      needed: 500,
      there: 300,
    });
    expect(
      scarcestSkills(problem({ turnouts: days, skills, people, tasks: [work('sweep', 50, 1)] }), 2300),
    ).toBeNull();
  });

  it('is not told for a day that the links alone miss', () => {
    const people = [person('Anselm', [3, 0], days)];
    const saw = work('saw', 500, 1, { crew: one, seats: seat(0) });
    expect(scarcestSkills(problem({ turnouts: days, skills, people, tasks: [saw] }), 200)).toBeNull();
  });
});
