import { checkProblem, type Problem, solve } from '@ribband/engine';
import fc from 'fast-check';
import { randomYard } from '../../../engine/src/random-yard.fixture.js';
import { buildProblem } from '../problem/build-problem.js';
import { hand, place, records, task } from '../problem/yard-records.fixture.js';
import type { YardRecords } from '../problem/yard-records.js';
import type { CallInput, Present } from './call-shapes.js';
import { type CallOutcome, callTurnout } from './call-turnout.js';
import { morningProblem } from './morning-problem.js';

const hour = 60;

function morning(yard: Partial<YardRecords>, came: string[], rest: Partial<CallInput> = {}) {
  const { problem } = buildProblem(records(yard));
  const outcome = solve(problem, { seed: 1, schedules: 20 });
  const index = new Map(problem.people.map(({ id }, i) => [id, i]));
  const present = came.map((id): Present => {
    return { person: index.get(id) ?? -1, from: 9 * hour, to: 14 * hour };
  });
  const called = callTurnout({
    problem,
    warm: outcome.kind === 'plan' ? outcome.plan : null,
    turnout: 0,
    present,
    postedTasks: problem.tasks.map((_, i) => i),
    ...rest,
  });
  if (called.kind !== 'called') throw new Error('no plan');
  const name = (i: number) => problem.people[i].id;
  return {
    fallen: called.fallen,
    idle: called.idle.map(name),
    work: Object.fromEntries(
      called.work.map((one) => [
        problem.tasks[one.task].id,
        one.crew.map(({ person }) => name(person)).sort(),
      ]),
    ),
  };
}

const sawyer = (id: string) => hand(id, { levels: new Map([['sawyer', 3]]) });
const sawing = task('saw', {
  workLeftPersonMinutes: 600,
  crew: { min: 2, efficient: 2, max: 3 },
  seats: [{ skillId: 'sawyer', level: 2, count: 1, cardIds: [] }],
});
const pulling = task('pull', { workLeftPersonMinutes: 1200, crew: { min: 1, efficient: 2, max: 3 } });

describe('a turnout that is called', () => {
  it('is the posted one when everybody came', () => {
    const yard = {
      tasks: [sawing, pulling],
      hands: [sawyer('anselm'), hand('maud'), hand('noor'), hand('bram')],
    };
    const { work, fallen, idle } = morning(yard, ['anselm', 'maud', 'noor', 'bram']);
    expect(fallen).toEqual([]);
    expect(idle).toEqual([]);
    expect(work['saw']).toContain('anselm');
  });

  it('lets work fall away for which nobody came, says so, and puts its hands to what can go on', () => {
    const yard = { tasks: [sawing, pulling], hands: [sawyer('anselm'), hand('maud'), hand('noor')] };
    const { work, fallen } = morning(yard, ['maud', 'noor']);
    expect(fallen).toEqual([{ task: 0, why: { kind: 'seat', skill: 0, have: 0, need: 1 } }]);
    expect(work).toEqual({ pull: ['maud', 'noor'] });
  });

  it('keeps a crew below its least away from the work', () => {
    const { work, fallen } = morning({ tasks: [sawing], hands: [sawyer('anselm'), hand('maud')] }, [
      'anselm',
    ]);
    expect(work).toEqual({});
    expect(fallen[0]?.why).toEqual({ kind: 'crew', have: 1, need: 2 });
  });

  it('gives a walk-in whom nobody expected a place', () => {
    const yard = { tasks: [sawing, pulling], hands: [sawyer('anselm'), hand('maud', { stays: [] })] };
    const { work, idle } = morning(yard, ['anselm', 'maud']);
    expect(Object.values(work).flat()).toContain('maud');
    expect(idle).toEqual([]);
  });

  it('leaves people where they were posted while that costs nothing', () => {
    const yard = {
      tasks: [task('one', { workLeftPersonMinutes: 600 }), task('two', { workLeftPersonMinutes: 600 })],
      hands: [hand('a'), hand('b'), hand('c'), hand('d')],
      places: [
        place('d', 'one', '2027-03-06'),
        place('c', 'one', '2027-03-06'),
        place('b', 'two', '2027-03-06'),
        place('a', 'two', '2027-03-06'),
      ],
    };
    expect(morning(yard, ['a', 'b', 'c', 'd']).work).toEqual({ one: ['c', 'd'], two: ['a', 'b'] });
  });

  it('keeps somebody off the work that a gate does not let them on, and closed work shut', () => {
    const yard = { tasks: [sawing, pulling], hands: [sawyer('anselm'), hand('maud'), hand('noor')] };
    const barred = morning(yard, ['anselm', 'maud', 'noor'], { barred: [{ person: 0, task: 0 }] });
    expect(barred.work['saw']).toBeUndefined();
    expect(barred.fallen[0]?.why.kind).toBe('seat');
    const shut = morning(yard, ['anselm', 'maud', 'noor'], { closed: [0] });
    expect(shut.fallen).toEqual([{ task: 0, why: { kind: 'closed' } }]);
  });

  it('gives the same answer to the same morning', () => {
    const yard = { tasks: [sawing, pulling], hands: [sawyer('anselm'), hand('maud'), hand('noor')] };
    expect(morning(yard, ['anselm', 'noor'])).toEqual(morning(yard, ['anselm', 'noor']));
  });

  it('seats on any random yard only who came, once at a time, within every crew', () => {
    let called = 0;
    fc.assert(
      fc.property(randomYard({ easy: true, tasks: 8 }), fc.integer({ min: 0, max: 255 }), (problem, who) => {
        const turnout = problem.turnouts.findIndex(({ end }) => end > problem.now);
        if (turnout < 0) return;
        const at = problem.turnouts[turnout];
        const present = problem.people.flatMap((_, person): Present[] =>
          (who >> (person % 8)) & 1 ? [{ person, from: Math.max(at.start, problem.now), to: at.end }] : [],
        );
        const input = { problem, warm: null, turnout, present, postedTasks: [], schedules: 4 };
        const morning = morningProblem(input);
        const outcome = callTurnout(input);
        if (outcome.kind !== 'called') return;
        called += 1;
        expect(checkProblem(morning).filter((fault) => fault.kind === 'malformed')).toEqual([]);
        expect(faultsOf(problem, present, outcome)).toEqual([]);
      }),
      { numRuns: 60 },
    );
    expect(called).toBeGreaterThan(20);
  });
});

/** What a called turnout breaks, looked at by itself. */
function faultsOf(
  problem: Problem,
  present: readonly Present[],
  { work }: Extract<CallOutcome, { kind: 'called' }>,
): string[] {
  const faults: string[] = [];
  const there = new Map(present.map((one) => [one.person, one]));
  const all = work.flatMap(({ task: on, crew }) => crew.map((one) => ({ on, ...one })));
  for (const one of all) {
    const came = there.get(one.person);
    if (!came || one.start < came.from || one.end > came.to) faults.push(`${one.person} is not there`);
    if (
      all.some(
        (other) =>
          other !== one && other.person === one.person && other.start < one.end && one.start < other.end,
      )
    )
      faults.push(`${one.person} is in two places`);
    const seat = one.seat === null ? undefined : problem.tasks[one.on].seats[one.seat];
    if (seat && (problem.people[one.person].levels[seat.skill] ?? 0) < seat.level)
      faults.push(`${one.person} has not the level`);
  }
  for (const { task: on, crew } of work) {
    const { crew: size, seats } = problem.tasks[on];
    for (const minute of new Set(crew.map(({ start }) => start))) {
      const now = crew.filter(({ start, end }) => start <= minute && minute < end);
      if (now.length > size.max) faults.push(`${now.length} on ${on}`);
      seats.forEach((seat, s) => {
        if (now.filter((one) => one.seat === s).length < seat.count && now.length < size.min)
          faults.push(`${on} lacks a seat`);
      });
    }
  }
  return faults;
}

describe('somebody for whom a rule was set aside', () => {
  it('has the seat of that work and of no other that asks for as much', () => {
    const carving = { ...sawing, id: 'carve', title: 'carve' };
    const yard = {
      tasks: [sawing, carving],
      hands: [hand('maud'), hand('noor'), hand('bram'), sawyer('anselm')],
    };
    const came = ['maud', 'noor', 'bram'];
    expect(morning(yard, came).work).toEqual({});
    const { work, fallen } = morning(yard, came, { allowed: [{ person: 0, task: 0, lacks: 'skill' }] });
    expect(work['saw']).toContain('maud');
    expect(fallen).toEqual([{ task: 1, why: { kind: 'seat', skill: 0, have: 0, need: 1 } }]);
  });

  it('is on work whose card they lack, today', () => {
    const carded = task('cut', { cardIds: ['first-aid'], crew: { min: 1, efficient: 1, max: 1 } });
    const holder = hand('ottoline', { cards: [{ kindId: 'first-aid', expiresOn: null }] });
    const yard = { tasks: [carded], hands: [hand('maud'), hand('noor'), holder] };
    expect(morning(yard, ['maud', 'noor']).work).toEqual({});
    const allowed = [{ person: 1, task: 0, lacks: 'clearance' as const }];
    expect(morning(yard, ['maud', 'noor'], { allowed }).work).toEqual({ cut: ['noor'] });
  });

  it('may be fewer than the least crew, or learn alone', () => {
    const pair = task('lift', { crew: { min: 2, efficient: 2, max: 3 } });
    const lone = morning({ tasks: [pair], hands: [hand('maud'), hand('noor')] }, ['maud'], {
      allowed: [{ person: 0, task: 0, lacks: 'crew' }],
    });
    expect(lone.work).toEqual({ lift: ['maud'] });
    const learner = hand('ysolde', { levels: new Map([['sawyer', 1]]) });
    const seat = { ...sawing, crew: { min: 1, efficient: 1, max: 1 } };
    const learns = { ...seat, seats: [{ skillId: 'sawyer', level: 1, count: 1, cardIds: [] }] };
    const yard = { tasks: [learns], hands: [learner, sawyer('anselm')] };
    expect(morning(yard, ['ysolde']).work).toEqual({});
    const allowed = [{ person: 0, task: 0, lacks: 'company' as const }];
    expect(morning(yard, ['ysolde'], { allowed }).work).toEqual({ saw: ['ysolde'] });
  });
});
