import type { TaskDraft, TaskSurroundings } from './task-draft.js';
import { taskFaults } from './task-faults.js';

const draft = (over: Partial<TaskDraft> = {}): TaskDraft => ({
  title: 'Strake 9A: pull plank nails to trays',
  kind: 'work',
  position: 'starboard, strake 9',
  estimate: { by: 'count', unit: 'nails', count: 36, perPersonHour: { low: 3, likely: 5, high: 8 } },
  crew: { min: 2, efficient: 2, max: 3 },
  seats: [{ skill: 'puller', level: 2, count: 1, cards: [] }],
  cards: [],
  leastAge: null,
  oneGo: false,
  setUpMinutes: 10,
  extraHandShare: 0.5,
  learnerShare: 0.5,
  tools: [],
  opens: [],
  closes: [],
  hazards: ['eye'],
  cautions: [],
  notBefore: null,
  held: null,
  ...over,
});

const around: TaskSurroundings = {
  skills: new Set(['puller', 'sawyer']),
  cards: new Set(['fire-watch']),
  tools: new Map([['ship-saw', 1]]),
  elements: new Set(['strake-9a']),
  longestTurnoutMinutes: 300,
};
const found = (over: Partial<TaskDraft>) =>
  taskFaults(draft(over), around).map((fault) => [fault.code, fault.path]);

describe('A task as it is entered', () => {
  it('of the usual kind stands', () => {
    expect(found({})).toEqual([]);
  });

  it('a count below zero is named as one', () => {
    const estimate = { ...draft().estimate, count: -4 } as TaskDraft['estimate'];
    expect(found({ estimate })).toEqual([['NEGATIVE_COUNT', 'estimate.byCount.count']]);
  });

  it('an estimate that doesn’t rise is named by its points', () => {
    const estimate = { by: 'work', personMinutes: { low: 60, likely: 240, high: 120 } } as const;
    expect(found({ estimate })).toEqual([['ESTIMATE_OUT_OF_ORDER', 'estimate.personMinutes']]);
  });

  it('glue can’t be estimated by count, and a say-so has no estimate', () => {
    const nobody = { crew: { min: 0, efficient: 0, max: 0 }, seats: [] };
    expect(found({ kind: 'elapsed', ...nobody })).toEqual([['BAD_INPUT', 'estimate']]);
    expect(found({ kind: 'hold', ...nobody })).toEqual([['BAD_INPUT', 'estimate']]);
    expect(found({ kind: 'hold', estimate: null, ...nobody })).toEqual([]);
  });

  it('a crew whose least is above its most, and seats that don’t fit, are named', () => {
    expect(found({ crew: { min: 4, efficient: 3, max: 3 } })).toEqual([['CREW_OUT_OF_ORDER', 'crew']]);
    const seats = [{ skill: 'puller', level: 2, count: 4, cards: [] }];
    expect(found({ seats })).toEqual([['CREW_OUT_OF_ORDER', 'seats']]);
  });

  it('who says that a hold is good has a seat and is no crew', () => {
    const hold = { kind: 'hold', estimate: null, crew: { min: 0, efficient: 0, max: 0 } } as const;
    expect(found({ ...hold, seats: [{ skill: 'puller', level: 4, count: 1, cards: [] }] })).toEqual([]);
  });

  it('a skill, a card, a tool or an element that the yard doesn’t have is named by its place', () => {
    expect(
      found({
        seats: [
          { skill: 'puller', level: 2, count: 1, cards: [] },
          { skill: 'cook', level: 2, count: 1, cards: ['driver'] },
        ],
        tools: [{ tool: 'crane', count: 1 }],
        opens: ['strake-9z'],
      }),
    ).toEqual([
      ['UNKNOWN_SKILL', 'seats[1].skill'],
      ['NOT_FOUND', 'seats[1].cards[0]'],
      ['NOT_FOUND', 'tools[0].tool'],
      ['NOT_FOUND', 'opens[0]'],
    ]);
  });

  it('more of a tool than there is can’t be asked for', () => {
    expect(found({ tools: [{ tool: 'ship-saw', count: 2 }] })).toEqual([['BAD_INPUT', 'tools[0].count']]);
  });

  it('work in one go that the fullest crew can’t do in the longest turnout is refused, with the longest named', () => {
    // 36 nails at 5 an hour are 432 person-minutes; two full hands and half a third do them in 173.
    expect(found({ oneGo: true })).toEqual([]);
    const estimate = { by: 'work', personMinutes: { low: 600, likely: 800, high: 900 } } as const;
    const fault = taskFaults(draft({ oneGo: true, estimate }), around).at(0);
    expect(fault).toMatchObject({ code: 'ONE_GO_TOO_LONG', path: 'oneGo' });
    expect(fault?.message).toBe(
      'In one go it takes 320 minutes with the fullest crew, and the longest turnout has 300',
    );
    expect(found({ oneGo: false, estimate })).toEqual([]);
  });

  it('a lift of a set length longer than any turnout is refused as well', () => {
    const estimate = { by: 'time', minutes: { low: 300, likely: 360, high: 400 } } as const;
    expect(found({ kind: 'fixed', estimate })).toEqual([['ONE_GO_TOO_LONG', 'estimate.minutes']]);
  });

  it('a first day that is none, or too far off for any plan, is named', () => {
    for (const notBefore of ['2027-02-30', '9999-12-31'])
      expect(found({ notBefore })).toEqual([['BAD_INPUT', 'notBefore']]);
  });

  it('a hold without a reason, a share above one and an empty title are named', () => {
    expect(found({ held: ' ', learnerShare: 1.5, title: '' })).toEqual([
      ['BAD_INPUT', 'title'],
      ['BAD_INPUT', 'learnerShare'],
      ['BAD_INPUT', 'held'],
    ]);
  });
});
