import { type Bound, type Hold, type Plan, WorkCalendar } from '@ribband/engine';
import { buildProblem } from '../problem/build-problem.js';
import { at, hand, link, records, task, zone } from '../problem/yard-records.fixture.js';
import { DayWords, listOf, span } from './days.js';
import { holdSentence, linkSentence, type Told } from './hold.js';
import {
  bottleneckSentence,
  boundSentence,
  daysToSpare,
  floatWords,
  gapPercent,
  readySentence,
} from './plan-sentences.js';
import { noPlanSentences, wishSentence } from './wishes.js';

const slots = [
  { id: 'gate', kind: 'gate', startsAt: at('2027-04-17', '07:10'), on: '2027-04-17' },
  { id: 'fallback', kind: 'fallback', startsAt: at('2027-05-15', '07:10'), on: '2027-05-15' },
] as const;
const { problem, epochAt } = buildProblem(
  records({
    slots: [...slots],
    tasks: [
      task('Saw', { seats: [{ skillId: 'sawyer', level: 2, count: 2, cardIds: [] }] }),
      task('Hang', { notBefore: '2027-03-20' }),
    ],
    links: [link('Saw', 'Hang', { lagMinutes: 2880 })],
    hands: [hand('Anselm Druitt')],
    openingLimits: [{ id: 'limit', name: 'Strakes 9 to 14', elementIds: ['plank'], atMost: 0, spared: null }],
  }),
);
const minute = (day: string, time: string) => (at(day, time) - epochAt) / 60_000;

function told(readyDay: string, rest: Partial<Plan> = {}): Told {
  const ready = minute(readyDay, '12:00');
  const bound: Bound = { ready: minute('2027-03-20', '12:00'), kind: 'critical path', bottleneck: null };
  const slot = slots.findIndex((one) => minute(one.on, '07:10') >= ready);
  const times = { start: minute('2027-03-13', '09:00'), end: minute('2027-03-14', '11:00'), float: 0 };
  const heldBy: Hold = { kind: 'nothing' };
  const plan: Plan = {
    format: 'ribband-plan/1',
    ready,
    slot: slot < 0 ? null : slot,
    segments: [],
    tasks: [
      { ...times, heldBy },
      { ...times, heldBy },
    ],
    launchChain: [],
    bound,
    proved: false,
    postingsChanged: 0,
    schedules: 1,
    ...rest,
  };
  return { problem, plan, epochAt, days: new DayWords(zone, '2027') };
}

describe('a plan in words', () => {
  it('says when she is ready against the gate', () => {
    const say = (day: string) => readySentence(told(day), slots);
    expect(say('2027-03-16')).toBe(
      'Ready 16 Mar, 32 days before the gate on 17 Apr, if everyone comes who said so.',
    );
    expect(say('2027-04-16')).toBe(
      'Ready 16 Apr, 1 day before the gate on 17 Apr, if everyone comes who said so.',
    );
    expect(say('2027-04-17')).toBe(
      'Ready 17 Apr, too late for the gate on 17 Apr; the fallback on 15 May would be made, if everyone comes who said so.',
    );
    expect(say('2027-05-01')).toBe(
      'Ready 1 May, 14 days after the gate on 17 Apr; the fallback on 15 May would be made, if everyone comes who said so.',
    );
    expect(say('2028-01-02')).toBe(
      'Ready 2 Jan 2028, 260 days after the gate on 17 Apr, and after the last lift slot, if everyone comes who said so.',
    );
  });

  it('says what can’t be beaten, and why', () => {
    expect(boundSentence(told('2027-04-10'))).toBe(
      'No plan with these people and turnouts can be ready before 20 Mar: the links alone take until then, however many come.',
    );
    const bottleneck = { skills: [0], people: [0], needed: 7200, there: 7080, from: 0, to: 4 * 10_080 };
    const load: Bound = { ready: minute('2027-03-20', '12:00'), kind: 'skill load', bottleneck };
    expect(boundSentence(told('2027-04-10', { bound: load }))).toMatch(
      /: sawyer, 120 hours needed before \d+ Apr, 118 there for a day earlier\.$/,
    );
    const saw = { ...bottleneck, skills: [], people: [], tools: [0], needed: 240, there: 171 };
    expect(
      boundSentence(told('2027-04-10', { bound: { ...load, kind: 'resource energy', bottleneck: saw } })),
    ).toMatch(/: band mill, 4 hours needed before \d+ Apr, 2\.9 there for a day earlier\.$/);
    expect(boundSentence(told('2027-03-20', { proved: true }))).toMatch(/^Proved: .* before 20 Mar\.$/);
  });

  it('names the scarcest skill with its hours, and who has it', () => {
    const scarcest = { skills: [0], people: [0], needed: 3840, there: 6540, from: 0, to: 4 * 10_080 };
    expect(bottleneckSentence(told('2027-04-10', { scarcest }))).toMatch(
      /^Scarcest: sawyer \(Anselm Druitt\)\. 64 hours needed before \d+ Apr, 109 there, if everyone comes who said so\.$/,
    );
    expect(bottleneckSentence(told('2027-04-10'))).toBeNull();
  });

  it('measures the gap from now to the bound, and has none where they meet', () => {
    expect(gapPercent(told('2027-03-20'))).toBe(0);
    const far = told('2027-04-03');
    const best = far.plan.bound.ready - problem.now;
    expect(gapPercent(far)).toBeCloseTo(((far.plan.ready - far.plan.bound.ready) / best) * 100, 0);
  });

  it('counts the days that a knot of the launch chain has to spare before the gate is missed', () => {
    const calendar = new WorkCalendar(problem.turnouts);
    // Seven working hours lie between ready and gate: two of Saturday 10 April and five of the Sunday.
    expect(daysToSpare(told('2027-04-10'), 0, calendar)).toBe(1);
    expect(daysToSpare(told('2027-04-24'), 0, calendar)).toBeLessThan(0);
  });

  it('says why a task does not start earlier', () => {
    const say = (hold: Hold) => holdSentence(told('2027-04-10'), 1, hold);
    expect(say({ kind: 'link', link: 0, task: 0 })).toBe(
      'Starts after “Saw” has ended and 2 days have passed.',
    );
    expect(say({ kind: 'person', person: 0, task: 0 })).toBe('Anselm Druitt is on “Saw” until Sun 14 Mar.');
    expect(say({ kind: 'tool', tool: 0, task: 0 })).toBe(
      'Waits for the band mill: in use for “Saw” until Sun 14 Mar.',
    );
    expect(say({ kind: 'opening', limit: 0, task: 0 })).toBe(
      'Opening limit “Strakes 9 to 14”: no more may be open until “Saw” is done, Sun 14 Mar.',
    );
    expect(say({ kind: 'skill', skill: 0, task: null })).toBe(
      'Waits for somebody for sawyer: nobody who can is there before.',
    );
    expect(say({ kind: 'not before' })).toBe('Not before 20 Mar.');
  });

  it('says links of all four kinds', () => {
    const say = (relation: 'start-to-start' | 'finish-to-finish' | 'start-to-finish', lag: number) =>
      linkSentence(problem, { before: 0, after: 1, relation, lag, lagKind: 'working' });
    expect(say('start-to-start', 300)).toBe(
      'Starts after “Saw” has started and 5 hours of turnouts have passed.',
    );
    expect(say('finish-to-finish', 0)).toBe('Ends after “Saw” has ended.');
    expect(say('start-to-finish', -90)).toBe(
      'Ends after “Saw” has started, or up to 90 minutes of turnouts before.',
    );
  });

  it('says which wishes can’t hold where there is no plan', () => {
    const days = new DayWords(zone, '2027');
    expect(
      wishSentence(problem, { kind: 'seat', task: 0, seat: 0, have: 1, need: 2 }, epochAt, days).sentence,
    ).toBe('“Saw” needs 2 at once for sawyer (works alone); there are never more than 1.');
    expect(wishSentence(problem, { kind: 'horizon', task: 1 }, epochAt, days)).toEqual({
      sentence: '“Hang” is not done by the last turnout.',
      task: 1,
    });
    const told = noPlanSentences(
      problem,
      {
        kind: 'no plan',
        wishes: [
          { kind: 'crew', task: 1, have: 2, need: 5 },
          { kind: 'seat', task: 0, seat: 0, have: null, need: 1 },
          { kind: 'one go', task: 0, longest: null, need: null },
          { kind: 'horizon', task: 1 },
        ],
        sets: [[0], [1, 2]],
      },
      epochAt,
      days,
    );
    expect(told.map(({ sentence }) => sentence)).toEqual([
      '“Hang” needs 5 hands at once; there are never more than 2 who may.',
      'These were tried and can’t all hold, any one of them less would do: 1 for sawyer (works alone) on “Saw” and “Saw” in one go.',
      '“Hang” is not done by the last turnout.',
    ]);
  });

  it('says lengths as one says them', () => {
    expect(span(90, false)).toBe('90 minutes');
    expect(span(120, false)).toBe('2 hours');
    expect(span(40_320, true)).toBe('28 days');
    expect(floatWords(0, 300)).toBe('can’t slip: she is ready later if it does');
    expect(floatWords(120, 300)).toBe('can slip 2 working hours');
    expect(floatWords(900, 300)).toBe('can slip 3 turnouts');
    expect(listOf(['a', 'b', 'c'])).toBe('a, b and c');
  });
});
