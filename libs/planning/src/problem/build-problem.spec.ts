import { checkProblem } from '@ribband/engine';
import { buildProblem } from './build-problem.js';
import { at, hand, link, place, records, task } from './yard-records.fixture.js';
import type { YardRecords } from './yard-records.js';

const day = 24 * 60;

function problemOf(rest: Partial<YardRecords>) {
  return buildProblem(records(rest)).problem;
}

describe('the engine’s problem from the yard’s records', () => {
  it('counts minutes from the local midnight of the haul-out, also past a clock change', () => {
    const { problem, epochAt } = buildProblem(records());
    expect(epochAt).toBe(at('2027-03-06', '00:00'));
    expect(problem.now).toBe(7 * 60);
    expect(problem.turnouts[0]).toMatchObject({ start: 9 * 60, end: 14 * 60 });
    // 14 March has 23 hours: its turnout starts at nine on the wall clock.
    expect(problem.turnouts[3]).toMatchObject({
      id: '2027-03-14',
      start: 8 * day + 8 * 60,
      end: 8 * day + 13 * 60,
    });
    expect(problem.aim.gate).toBe((at('2027-04-17', '07:10') - epochAt) / 60_000);
  });

  it('reaches back to work that began before the haul-out', () => {
    const begun = task('order', { startedAt: at('2027-02-20', '10:00') });
    const { problem, epochAt } = buildProblem(records({ tasks: [begun] }));
    expect(epochAt).toBe(at('2027-02-20', '00:00'));
    expect(problem.tasks[0]?.progress).toEqual({ kind: 'under way', startedAt: 600 });
  });

  it('is made of records whose days cannot be: a year slipped, or until for ever', () => {
    const zero = [
      task('slip', { startedAt: at('0001-01-01', '00:00') }),
      task('never', { notBefore: '9999-12-31' }),
    ];
    const cards = [{ kindId: 'first-aid', expiresOn: '9999-12-31' }];
    const { problem } = buildProblem(records({ tasks: zero, hands: [hand('h', { cards })] }));
    expect(problem.tasks[0]?.progress).toEqual({ kind: 'under way', startedAt: 0 });
    expect(problem.people[0]?.clearances[0]?.until).toBeGreaterThan(problem.now);
    expect(problem.tasks[1]?.notBefore).toBeGreaterThan(problem.horizon);
    expect(checkProblem(problem)).toEqual([]);
  });

  it('leaves out the launch and what only follows it, afloat', () => {
    const tasks = [task('fair'), task('launch', { kind: 'launch' }), task('watch'), task('paint')];
    const links = [link('fair', 'launch'), link('launch', 'watch'), link('fair', 'paint')];
    const problem = problemOf({ tasks, links });
    expect(problem.tasks.map((one) => one.id)).toEqual(['fair', 'paint']);
    expect(problem.links).toEqual([
      { before: 0, after: 1, relation: 'finish-to-start', lag: 0, lagKind: 'elapsed' },
    ]);
  });

  it('keeps a dropped task as a point, so that what followed it still follows what it followed', () => {
    const tasks = [task('a'), task('b', { state: 'dropped', opens: ['plank'] }), task('c')];
    const problem = problemOf({ tasks, links: [link('a', 'b'), link('b', 'c')] });
    expect(problem.tasks[1]).toMatchObject({ effort: { kind: 'hold' }, crew: { max: 0 }, opens: [] });
    expect(problem.links).toHaveLength(2);
  });

  it('lets a card count to the last minute of its last day, and a lapsed one not at all', () => {
    const cards = (expiresOn: string | null) => hand('h', { cards: [{ kindId: 'first-aid', expiresOn }] });
    const held = (expiresOn: string | null) =>
      problemOf({ hands: [cards(expiresOn)] }).people[0]?.clearances.filter(
        ({ clearance }) => clearance === 0,
      );
    expect(held('2027-03-07')).toEqual([{ clearance: 0, until: 2 * day - 1 }]);
    expect(held('2027-03-06')).toEqual([{ clearance: 0, until: day - 1 }]);
    expect(held('2027-03-05')).toEqual([]);
    expect(held(null)).toEqual([{ clearance: 0, until: null }]);
  });

  it('asks for an age as for a card, and counts nobody whose age is unknown', () => {
    const problem = problemOf({
      tasks: [task('mill', { leastAge: 18 })],
      hands: [hand('grown'), hand('young', { bornOn: '2010-01-01' }), hand('unknown', { bornOn: null })],
    });
    const [asked] = problem.tasks[0].clearances;
    expect(problem.clearances[asked].name).toBe('18 or older');
    const holds = problem.people.map((person) =>
      person.clearances.some(({ clearance }) => clearance === asked),
    );
    expect(holds).toEqual([true, false, false]);
  });

  it('never leaves someone under 18 without an adult on the same work', () => {
    const young = hand('young', { bornOn: '2010-01-01' });
    const problem = problemOf({
      hands: [hand('grown'), young],
      tasks: [
        task('alone', { crew: { min: 1, efficient: 2, max: 2 } }),
        task('pair', { crew: { min: 2, efficient: 2, max: 3 } }),
        task('saw', { seats: [{ skillId: 'sawyer', level: 1, count: 1, cardIds: [] }] }),
      ],
    });
    const adult = problem.clearances.findIndex(({ name }) => name === '18 or older');
    const [alone, pair, saw] = problem.tasks;
    expect(alone.clearances).toEqual([adult]);
    expect(pair.seats).toEqual([{ skill: 1, level: 1, count: 1, clearances: [] }]);
    expect(problem.people.map((person) => person.levels[1])).toEqual([2, 0]);
    expect(saw.seats[0]?.clearances).toEqual([adult]);
    expect(problemOf({ hands: [hand('grown')], tasks: [task('alone')] }).tasks[0]?.clearances).toEqual([]);
  });

  it('keeps what is taken in the coming week and merely prefers what is posted or later', () => {
    const problem = problemOf({
      tasks: [task('a')],
      hands: [hand('h')],
      places: [
        place('h', 'a', '2027-03-06', { state: 'taken' }),
        place('h', 'a', '2027-03-07'),
        place('h', 'a', '2027-03-14', { state: 'taken' }),
      ],
    });
    expect(problem.posted).toEqual([
      { task: 0, turnout: 0, person: 0, firm: true },
      { task: 0, turnout: 1, person: 0, firm: false },
      { task: 0, turnout: 3, person: 0, firm: false },
    ]);
  });

  it('holds nobody to a place once its turnout has begun', () => {
    const places = [place('h', 'a', '2027-03-06', { state: 'taken' })];
    const firmAt = (time: string) =>
      problemOf({ tasks: [task('a')], hands: [hand('h')], places, now: at('2027-03-06', time) }).posted.map(
        ({ firm }) => firm,
      );
    expect([firmAt('08:59'), firmAt('11:40')]).toEqual([[true], [false]]);
  });

  it('expects who learns beside somebody, and counts them to no crew', () => {
    const problem = problemOf({
      tasks: [task('a')],
      hands: [hand('teaches'), hand('learns', { stays: [] })],
      places: [
        place('teaches', 'a', '2027-03-06', { state: 'taken' }),
        place('learns', 'a', '2027-03-06', { state: 'taken', isLesson: true }),
      ],
    });
    expect(problem.posted).toEqual([{ task: 0, turnout: 0, person: 0, firm: true }]);
    expect(problem.people[1]?.stays.map((stay) => stay.turnout)).toEqual([0]);
  });

  it('holds nobody to a place who goes on to another one the same day', () => {
    const noon = at('2027-03-06', '11:30');
    const problem = problemOf({
      tasks: [task('a'), task('b')],
      hands: [hand('h')],
      places: [
        place('h', 'a', '2027-03-06', { state: 'taken', endsAt: noon }),
        place('h', 'b', '2027-03-06', { state: 'taken', startsAt: noon }),
      ],
    });
    expect(problem.posted.map((posting) => posting.firm)).toEqual([false, false]);
  });

  it('expects whoever took a place and not who left one', () => {
    const problem = problemOf({
      tasks: [task('a'), task('b')],
      hands: [hand('took', { stays: [] }), hand('left')],
      places: [
        place('took', 'a', '2027-03-07', { state: 'taken', endsAt: at('2027-03-07', '12:00') }),
        place('left', 'a', '2027-03-06', { state: 'left' }),
        place('left', 'a', '2027-03-07', { state: 'left' }),
        place('left', 'b', '2027-03-07', { state: 'taken' }),
      ],
    });
    expect(problem.people[0]?.stays).toEqual([{ turnout: 1, from: day + 540, to: day + 720, showUp: 0.8 }]);
    expect(problem.people[1]?.stays.slice(0, 2).map((stay) => stay.turnout)).toEqual([1, 2]);
  });

  it('counts down time that passes by itself, and keeps what is done where it was', () => {
    const tasks = [
      task('set', {
        kind: 'elapsed',
        minutes: 28 * day,
        workLeftPersonMinutes: null,
        startedAt: at('2027-03-06', '00:00'),
      }),
      task('glue', {
        state: 'done',
        startedAt: at('2027-03-06', '09:00'),
        endedAt: at('2027-03-06', '14:00'),
      }),
    ];
    const problem = problemOf({ tasks, now: at('2027-03-08', '07:00') });
    expect(problem.tasks[0]).toMatchObject({
      progress: { kind: 'under way', startedAt: 0 },
      effort: { kind: 'elapsed', minutes: 26 * day - 7 * 60 },
    });
    expect(problem.tasks[1]?.progress).toEqual({ kind: 'done', startedAt: 540, endedAt: 840 });
  });

  it('does not plan held work for the coming week', () => {
    const problem = problemOf({ tasks: [task('held', { isHeld: true })] });
    expect(problem.tasks[0]?.notBefore).toBe(7 * 60 + 7 * day);
  });
});
