import fc from 'fast-check';
import { progressOf, type ProgressSaySo, type ProgressTally, type ProgressTask } from './progress.js';

const day = 86_400_000;
const days = { startOf: (on: string) => Date.parse(on), endOf: (on: string) => Date.parse(on) + day - 1 };

const nails: ProgressTask = {
  kind: 'work',
  estimateBy: 'count',
  count: 36,
  low: 3,
  likely: 6,
  high: 9,
  startedOn: null,
  endedOn: null,
};
const hours: ProgressTask = { ...nails, estimateBy: 'work', count: null, low: 300, likely: 600, high: 900 };

let clock = 1000;
const tally = (over: Partial<ProgressTally>): ProgressTally => ({
  id: `tally_${(clock += 1)}`,
  correctsId: null,
  count: null,
  minutes: 60,
  finished: false,
  workedOn: '2027-04-03',
  yardAt: Date.parse('2027-04-03T20:00:00Z'),
  enteredAt: clock,
  ...over,
});
const said = (over: Partial<ProgressSaySo>): ProgressSaySo => ({
  verdict: 'passed',
  countBack: 0,
  minutesBack: 0,
  yardAt: Date.parse('2027-04-04T20:00:00Z'),
  saidAt: (clock += 1),
  ...over,
});

describe('How far work has come', () => {
  it('work left is the count left over the rate', () => {
    const progress = progressOf(nails, [tally({ count: 12, minutes: 150 })], [], days);
    expect(progress).toMatchObject({ stage: 'begun', countDone: 12, countLeft: 24, minutesDone: 150 });
    expect(progress.workLeft?.likely).toBeCloseTo(240); // 24 nails at 6 an hour
    expect(progress.workLeft?.high).toBeCloseTo(480); // at 3 an hour
    expect(progress.workLeft?.low).toBeCloseTo(160); // at 9 an hour
  });

  it('a correction replaces a tally and erases nothing', () => {
    const wrong = tally({ count: 30 });
    const right = tally({ count: 13, correctsId: wrong.id });
    const again = tally({ count: 3, correctsId: right.id });
    expect(progressOf(nails, [wrong, right, again], [], days).countDone).toBe(3);
  });

  it('all counted means shown, and so does somebody’s word before all is counted', () => {
    expect(progressOf(nails, [tally({ count: 20 }), tally({ count: 16 })], [], days).stage).toBe('shown');
    const early = progressOf(nails, [tally({ count: 30, finished: true })], [], days);
    expect(early).toMatchObject({ stage: 'shown', countLeft: 0, workLeft: { low: 0, likely: 0, high: 0 } });
  });

  it('what was sent back is to be done again, and is shown anew', () => {
    const first = [tally({ count: 36 })];
    const back = [said({ verdict: 'sent-back', countBack: 9 })];
    const redo = progressOf(nails, first, back, days);
    expect(redo).toMatchObject({ stage: 'redo', countDone: 27, countLeft: 9, doneAt: null });
    expect(redo.workLeft?.likely).toBeCloseTo(90);
    expect(progressOf(nails, [...first, tally({ count: 9 })], back, days).stage).toBe('shown');
  });

  it('sending nine back after "finished" at thirty leaves nine to do, not fifteen', () => {
    const first = [tally({ count: 30, finished: true })];
    const redo = progressOf(nails, first, [said({ verdict: 'sent-back', countBack: 9 })], days);
    expect(redo.countLeft).toBe(9);
  });

  it('a pass stands until the work is sent back', () => {
    const first = [tally({ count: 36 })];
    const passed = said({});
    expect(progressOf(nails, first, [passed], days)).toMatchObject({
      stage: 'passed',
      doneAt: Date.parse('2027-04-03T20:00:00Z'),
    });
    const back = said({ verdict: 'sent-back', countBack: 4 });
    expect(progressOf(nails, first, [passed, back], days).stage).toBe('redo');
  });

  it('work that runs over its estimate still needs somebody to finish it', () => {
    const over = progressOf(hours, [tally({ minutes: 700 })], [], days);
    expect(over.workLeft).toEqual({ low: 0, likely: 200, high: 200 });
    expect(progressOf(hours, [tally({ minutes: 2000 })], [], days).workLeft?.likely).toBe(15);
  });

  it('work begun or done before tallies were kept counts from its days', () => {
    expect(progressOf({ ...hours, startedOn: '2027-03-20' }, [], [], days)).toMatchObject({
      stage: 'begun',
      begunAt: Date.parse('2027-03-20'),
    });
    const ended = { ...hours, startedOn: '2027-03-20', endedOn: '2027-03-21' };
    expect(progressOf(ended, [], [], days)).toMatchObject({ stage: 'passed', workLeft: { likely: 0 } });
    const back = said({ verdict: 'sent-back', minutesBack: 120 });
    expect(progressOf(ended, [], [back], days).stage).toBe('redo');
  });

  it('nothing is ever less than nothing, and what is done and what is left make the whole', () => {
    const tallies = fc.array(fc.record({ count: fc.nat(20), finished: fc.boolean() }), { maxLength: 6 });
    const backs = fc.array(fc.nat(40), { maxLength: 3 });
    fc.assert(
      fc.property(tallies, backs, (some, sentBack) => {
        const rows = some.map((one) => tally(one));
        const saySos = sentBack.map((countBack) => said({ verdict: 'sent-back', countBack }));
        const { countDone, countLeft, workLeft, stage } = progressOf(nails, rows, saySos, days);
        expect(countDone).toBeGreaterThanOrEqual(0);
        if (stage === 'begun' || stage === 'redo')
          expect(countDone + (countLeft ?? 0)).toBeGreaterThanOrEqual(36);
        else if (stage === 'shown') expect(countLeft).toBe(0);
        expect(workLeft && workLeft.low <= workLeft.likely && workLeft.likely <= workLeft.high).toBe(true);
      }),
      { numRuns: 200 },
    );
  });
});
