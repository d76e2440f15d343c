import {
  agreement,
  forecast,
  plainBeliefs,
  plainTask,
  solve,
  type Beliefs,
  type Forecast,
  type Problem,
} from '@ribband/engine';
import fc from 'fast-check';
import { randomYard } from '../../libs/engine/src/random-yard.fixture.js';
import { smallYard } from '../bench/calibrate/small-yard.js';
import { World } from '../bench/calibrate/world.js';
import { emptyYard, hand, job, textbook, UNIT } from './forecast.fixture.js';

function planOf(problem: Problem) {
  const outcome = solve(problem, { seed: 1, schedules: 50 });
  if (outcome.kind === 'no plan') throw new Error(JSON.stringify(outcome.wishes));
  return outcome.plan;
}

function told(problem: Problem, beliefs: Beliefs = plainBeliefs(problem), futures = 4000): Forecast {
  return forecast(problem, planOf(problem), beliefs, { seed: 7, futures });
}

function oddsBy({ spread }: Forecast, minute: number): number {
  return spread.filter((one) => one !== null && one <= minute).length / 100;
}

describe('a forecast of published projects', () => {
  // Hillier and Lieberman, Introduction to Operations Research, ch. 22 (three points from memory); the simulated
  // values were recomputed with another program (a million draws of PERT-betas).
  it('gives the Reliable Construction project 0.816 by week 47, where the normal formula says 0.841', () => {
    const { problem, beliefs } = textbook([
      ['A', '', [1, 2, 3]],
      ['B', 'A', [2, 3.5, 8]],
      ['C', 'B', [6, 9, 18]],
      ['D', 'C', [4, 5.5, 10]],
      ['E', 'C', [1, 4.5, 5]],
      ['F', 'E', [4, 4, 10]],
      ['G', 'D', [5, 6.5, 11]],
      ['H', 'EG', [5, 8, 17]],
      ['I', 'C', [3, 7.5, 9]],
      ['J', 'FI', [3, 9, 9]],
      ['K', 'J', [4, 4, 4]],
      ['L', 'J', [1, 5.5, 7]],
      ['M', 'H', [1, 2, 3]],
      ['N', 'KL', [5, 5.5, 9]],
    ]);
    problem.aim = { gate: 47 * UNIT, slots: [40 * UNIT, 44 * UNIT, 47 * UNIT] };
    const { slots, ready } = told(problem, beliefs, 20_000);
    [0.063, 0.474, 0.816].forEach((odds, k) => {
      expect(Math.abs(slots[k].odds - odds)).toBeLessThan(0.014);
    });
    expect((ready.p50.minute ?? 0) / UNIT).toBeCloseTo(44.2, 0);
    expect((ready.p80.minute ?? 0) / UNIT).toBeCloseTo(46.81, 0);
  });

  // Anderson, Sweeney and Williams, An Introduction to Management Science, ch. 9, table 9.4; simulated as above.
  it('gives the Porta-Vac project 0.930 by week 20, where the normal formula says 0.966', () => {
    const { problem, beliefs } = textbook([
      ['A', '', [4, 5, 12]],
      ['B', '', [1, 1.5, 5]],
      ['C', 'A', [2, 3, 4]],
      ['D', 'A', [3, 4, 11]],
      ['E', 'A', [2, 3, 4]],
      ['F', 'C', [1.5, 2, 2.5]],
      ['G', 'D', [1.5, 3, 4.5]],
      ['H', 'BE', [2.5, 3.5, 7.5]],
      ['I', 'H', [1.5, 2, 2.5]],
      ['J', 'FGI', [1, 2, 3]],
    ]);
    problem.aim = { gate: 20 * UNIT, slots: [20 * UNIT] };
    expect(Math.abs(told(problem, beliefs, 20_000).gate.odds - 0.93)).toBeLessThan(0.008);
  });

  // Malcolm, Roseboom, Clark and Fazar, Operations Research 7 (1959), from memory: sum 13, sigma 2.236, and the normal
  // formula's 0.9101 by 16. A sum of three PERT-betas has the same mean; its spread is that of the betas.
  it('adds up three activities in a row to the mean of 13 of their formula', () => {
    const { problem, beliefs } = textbook([
      ['A', '', [2, 4, 12]],
      ['B', 'A', [3, 5, 7]],
      ['C', 'B', [1, 2, 9]],
    ]);
    problem.aim = { gate: 16 * UNIT, slots: [16 * UNIT] };
    const { spread, gate } = told(problem, beliefs, 20_000);
    const mean = spread.reduce<number>((sum, minute) => sum + (minute ?? 0) / UNIT, 0) / 100;
    expect(mean).toBeCloseTo(13, 1);
    expect(Math.abs(gate.odds - 0.91)).toBeLessThan(0.02);
    const sigma = Math.hypot(10, 4, 8) / 6;
    expect(sigma).toBeCloseTo(2.236, 3);
  });
});

describe('odds of a crew', () => {
  const crew = (chances: number[], need: number, sawyers = 0) => {
    const problem = emptyYard(1);
    problem.people = chances.map((chance, p) => hand(problem, `person ${p}`, chance, p < sawyers ? 2 : 0));
    problem.tasks = [
      job('lift', {
        effort: { kind: 'fixed', minutes: 60 },
        crew: { min: need, efficient: need, max: need },
        seats: sawyers > 0 ? [{ skill: 0, level: 2, count: 1, clearances: [] }] : [],
        oneGo: true,
      }),
    ];
    problem.aim = { gate: 1440, slots: [1440] };
    return told(problem, plainBeliefs(problem), 20_000).gate;
  };

  // Binomial and Poisson-binomial sums, computed exactly.
  it('are those of the binomial where all are equally likely', () => {
    expect(Math.abs(crew([0.8, 0.8, 0.8, 0.8, 0.8, 0.8], 4).odds - 0.90112)).toBeLessThan(0.007);
    expect(Math.abs(crew([0.8, 0.8, 0.8, 0.8, 0.8, 0.8], 6).odds - 0.262144)).toBeLessThan(0.01);
  });

  it('are those of the Poisson-binomial where they are not, and of a skill that has to be there', () => {
    const five = [0.95, 0.9, 0.8, 0.7, 0.6];
    expect(Math.abs(crew(five, 3).odds - 0.94648)).toBeLessThan(0.006);
    expect(Math.abs(crew(five, 4).odds - 0.72078)).toBeLessThan(0.011);
    expect(Math.abs(crew([0.9, 0.6, 0.8, 0.8, 0.7], 3, 2).odds - 0.8964)).toBeLessThan(0.008);
  });

  it('fall apart further where people stay away together, each as likely to come as before', () => {
    const problem = emptyYard(60);
    problem.people = Array.from({ length: 4 }, (_, p) => hand(problem, `person ${p}`, 0.8));
    problem.tasks = [
      job('lift', {
        effort: { kind: 'fixed', minutes: 60 },
        crew: { min: 4, efficient: 4, max: 4 },
        oneGo: true,
      }),
    ];
    problem.aim = { gate: 1440, slots: [1440] };
    const alone = told(problem).gate.odds;
    const together = told(problem, { ...plainBeliefs(problem), together: 0.6 }).gate.odds;
    expect(alone).toBeCloseTo(0.8 ** 4, 1);
    expect(together).toBeGreaterThan(alone + 0.1);
  });
});

describe('a forecast', () => {
  const sawing = (showUp: number) => {
    const problem = emptyYard(60);
    problem.people = [hand(problem, 'sawyer', showUp, 2), hand(problem, 'helper', 1)];
    const saw = { seats: [{ skill: 0, level: 2, count: 1, clearances: [] }] };
    problem.tasks = [
      job('saw', { ...saw, effort: { kind: 'work', personMinutes: 2400 } }),
      job('paint', { effort: { kind: 'work', personMinutes: 600 } }),
    ];
    return problem;
  };

  it('says the plan’s own minute where nothing is uncertain', () => {
    const problem = sawing(1);
    const plan = planOf(problem);
    const { ready, spread } = forecast(problem, plan, plainBeliefs(problem), { seed: 1, futures: 50 });
    expect(ready.p50.minute).toBe(plan.ready);
    expect(new Set(spread)).toEqual(new Set([plan.ready]));
  });

  it('of eight sawing days with a sawyer who comes half the time is that of the negative binomial', () => {
    // Eight or more of 15, and of 20, at one half each (exact sums).
    const result = told(sawing(0.5), undefined, 20_000);
    const by = (day: number) => oddsBy(result, day * 1440 + 840);
    expect(Math.abs(by(14) - 0.5)).toBeLessThan(0.016);
    expect(Math.abs(by(19) - 0.8684)).toBeLessThan(0.016);
  });

  it('names the sawyer as what it depends on, and sawing as what the time goes on', () => {
    const result = told(sawing(0.5));
    expect(result.drivers[0]).toMatchObject({ kind: 'person', index: 0 });
    expect(result.drivers[0].minutes).toBeLessThan(0);
    expect(result.chain[0]).toMatchObject({ kind: 'skill', index: 0 });
    expect(result.tasks[0].criticality).toBe(1);
    expect(result.tasks[1].criticality).toBeLessThan(0.02);
    expect(result.weeks.length).toBeGreaterThan(0);
  });

  it('tells weeks apart by the first minutes that it is given, with the same luck', () => {
    const problem = sawing(0.5);
    const plan = planOf(problem);
    const ask = (weeks?: number[]) =>
      forecast(problem, plan, plainBeliefs(problem), { seed: 1, futures: 2000, weeks });
    const own = ask();
    expect(own.weeks.every(({ from }) => from % 10_080 === 0)).toBe(true);
    const third = [-4, 3, 10, 17, 24, 31].map((day) => day * 1440);
    const given = ask(third);
    expect(given.weeks.length).toBeGreaterThan(1);
    expect(given.weeks.filter(({ from }) => !third.includes(from))).toEqual([]);
    expect(ask([0, 1, 2, 3, 4, 5, 6, 7, 8, 9].map((week) => week * 10_080))).toEqual(own);
    expect({ ...given, weeks: own.weeks }).toEqual(own);
  });

  it('hands out the ready minute of each future', () => {
    const problem = sawing(0.5);
    const ready = new Int32Array(400);
    const { gate } = forecast(problem, planOf(problem), plainBeliefs(problem), {
      seed: 1,
      futures: 400,
      ready,
    });
    expect(ready.filter((minute) => minute <= problem.aim.gate).length / 400).toBe(gate.odds);
  });

  it('is the same for the same seed, and nearly the same for another', () => {
    const problem = sawing(0.7);
    const plan = planOf(problem);
    const ask = (seed: number) => forecast(problem, plan, plainBeliefs(problem), { seed, futures: 2000 });
    expect(ask(3)).toEqual(ask(3));
    expect(ask(3).spread).not.toEqual(ask(4).spread.slice().reverse());
    expect(Math.abs(oddsBy(ask(3), 13 * 1440) - oddsBy(ask(4), 13 * 1440))).toBeLessThan(0.07);
  });

  it('puts the dates later the less is known of a pace, of stock and of what is sent back', () => {
    const problem = sawing(0.9);
    const p80 = (more: Partial<Beliefs>) => {
      const { ready } = told(problem, { ...plainBeliefs(problem), ...more }, 2000);
      return ready.p80.minute ?? Infinity;
    };
    const rates = (shape: number) => ({
      rates: [{ id: 'sawing', name: 'sawing', pace: { shape, rate: shape }, byTurnout: 0.1 }],
      tasks: [{ ...plainTask(), rate: 0 }, plainTask()],
    });
    expect(p80(rates(4))).toBeGreaterThan(p80(rates(400)));
    const late = { chance: 0.5, minutes: { shape: 4, rate: 4 / (20 * 1440) } };
    expect(p80({ tasks: [{ ...plainTask(), late }, plainTask()] })).toBeGreaterThan(p80({}));
    const rework = { chance: 0.5, share: 0.5 };
    expect(p80({ tasks: [{ ...plainTask(), rework }, plainTask()] })).toBeGreaterThan(p80({}));
  });

  it('never has anything done before what it waits for, nor before the bound, on random yards', () => {
    let yards = 0;
    fc.assert(
      fc.property(randomYard({ easy: true, tasks: 12 }), (problem) => {
        const outcome = solve(problem, { seed: 1, schedules: 20 });
        if (outcome.kind === 'no plan') return;
        yards++;
        const certain = structuredClone(problem);
        for (const person of certain.people) for (const stay of person.stays) stay.showUp = 1;
        const one = forecast(certain, outcome.plan, plainBeliefs(certain), { seed: 1, futures: 1 });
        for (const { before, after, relation, lag } of problem.links) {
          if (relation !== 'finish-to-start' || lag < 0) continue;
          const end = one.tasks[before].end;
          const start = one.tasks[after].start;
          if (start === null) continue;
          expect(end).not.toBeNull();
          expect(start).toBeGreaterThanOrEqual(end ?? Infinity);
        }
      }),
      { numRuns: 80 },
    );
    expect(yards).toBeGreaterThan(40);
  });
});

describe('the replay of a morning', () => {
  it('leaves for idle hands what a plan has them take up now and then, however early they began it', () => {
    const problem = emptyYard(8, [job('turn bungs'), job('draw the frame'), job('bolt the frame')]);
    problem.people = [hand(problem, 'Odd', 1)];
    const plan = planOf(problem);
    const day = (w: number) => problem.turnouts[w];
    const [bungs, draw, bolt] = plan.tasks;
    const tasks = [
      { ...bungs, start: day(0).start, end: day(7).end, float: 0 },
      { ...draw, start: day(1).start, end: day(1).end, float: 0 },
      { ...bolt, start: day(2).start, end: day(2).end, float: 0 },
    ];
    const told = forecast(problem, { tasks }, plainBeliefs(problem), { seed: 1, futures: 1 });
    expect(told.tasks.map(({ end }) => end)).toEqual([day(2).end, day(0).end, day(1).end]);
  });

  it('has the crew do for the most part what the engine’s own plan of that morning has them do', () => {
    let same = 0;
    let engine = 0;
    let replay = 0;
    for (let seed = 7001; seed <= 7024; seed++) {
      const yard = smallYard(seed);
      const first = solve(yard.problem, { seed: 1, schedules: 60 });
      if (first.kind === 'no plan') continue;
      const book = yard.books.map(({ low, high }) => (low + high) / 2);
      const world = new World(yard);
      while (world.ready === null && world.turnout < 1 + (seed % 8)) world.live(book);
      if (world.ready !== null) continue;
      const morning = world.problemNow(book);
      const w = world.turnout;
      morning.people = morning.people.map((person, p) => ({
        ...person,
        stays: person.stays.flatMap((stay) =>
          stay.turnout < w || (stay.turnout === w && (seed * 7 + p * 3) % 10 >= 8)
            ? []
            : [stay.turnout === w ? { ...stay, showUp: 1 } : stay],
        ),
      }));
      const plan = solve(morning, { seed: 1, schedules: 60 });
      if (plan.kind === 'no plan') continue;
      const found = agreement(morning, first.plan, plan.plan);
      same += found.sameTask * found.engine;
      engine += found.engine;
      replay += found.replay;
    }
    expect(same / engine).toBeGreaterThan(0.8);
    // Idle hands join in where they count for less, so that the replay gives out somewhat more.
    expect(replay / engine).toBeGreaterThan(0.95);
    expect(replay / engine).toBeLessThan(1.4);
  });
});
