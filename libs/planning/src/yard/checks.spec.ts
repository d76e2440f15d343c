import { readYard } from './checks.js';
import { smallYard } from './small-yard.fixture.js';
import type { YardDocument } from './yard-document.js';

/** The faults of the small yard after a change, as 'path: message'. */
function faultsAfter(change: (yard: YardDocument) => void): string[] {
  const yard = smallYard();
  change(yard);
  const read = readYard(yard);
  if (!('faults' in read)) return [];
  for (const fault of read.faults) expect(fault.wouldBeRight).not.toBe('');
  return read.faults.map(({ path, message }) => `${path}: ${message}`);
}

/** Item i of a list that a test knows to be there. */
function at<T>(list: T[], i: number): T {
  const item = list[i];
  if (item === undefined) throw new Error(`nothing at ${String(i)}`);
  return item;
}

describe('a yard document at the door', () => {
  it('passes when nothing is wrong', () => {
    expect(faultsAfter(() => undefined)).toEqual([]);
  });

  it('is told every fault of its shape with the path', () => {
    const read = readYard({ ...smallYard(), format: 'something else', tasks: 'none', colour: 'red' });
    const faults = 'faults' in read ? read.faults : [];
    expect(faults).toEqual(
      expect.arrayContaining([
        { path: 'format', message: 'is not one of the values allowed', wouldBeRight: 'ribband-yard/1' },
        { path: 'tasks', message: 'is of the wrong kind', wouldBeRight: 'a list, which may be empty' },
        {
          path: 'colour',
          message: 'is not a known key',
          wouldBeRight: 'only the keys of the format ribband-yard/1',
        },
      ]),
    );
  });

  it.each<[string, (yard: YardDocument) => void, string]>([
    [
      'a negative count',
      (y) => Object.assign(at(y.tasks, 0).estimate ?? {}, { count: -3 }),
      'tasks[0].estimate.count: is too small',
    ],
    [
      'a day that does not exist',
      (y) => (y.haulOut.hauledOutOn = '2027-02-30'),
      'haulOut.hauledOutOn: is not a day of the calendar',
    ],
    [
      'a zone that does not exist',
      (y) => (y.haulOut.timeZone = 'Mars/Olympus'),
      'haulOut.timeZone: is not a known time zone',
    ],
    [
      'an unknown skill',
      (y) => (at(at(y.tasks, 0).seats, 0).skill = 'pulling'),
      'tasks[0].seats[0].skill: there is no skill pulling',
    ],
    ['a ref used twice', (y) => (at(y.skills, 1).ref = 'sawyer'), 'skills[1].ref: sawyer is used twice'],
    [
      'an estimate out of order',
      (y) => (at(y.tasks, 1).estimate = { by: 'work', personMinutes: { low: 500, likely: 480, high: 700 } }),
      'tasks[1].estimate.personMinutes: is out of order: 500, 480, 700',
    ],
    [
      'work without an estimate',
      (y) => (at(y.tasks, 1).estimate = null),
      'tasks[1].estimate: a work task has no estimate',
    ],
    [
      'crews out of order',
      (y) => (at(y.tasks, 0).crew = { min: 3, efficient: 2, max: 3 }),
      'tasks[0].crew.efficient: is below the least crew',
    ],
    [
      'more seats than crew',
      (y) => (at(at(y.tasks, 0).seats, 0).count = 4),
      'tasks[0].seats: 4 seats for a crew of 3 at most',
    ],
    [
      'more tools than there are',
      (y) => (at(at(y.tasks, 1).tools, 0).count = 2),
      'tasks[1].tools[0].count: asks for 2 of band-mill',
    ],
    [
      'one-go work longer than the longest turnout',
      (y) => (at(y.tasks, 2).estimate = { by: 'time', minutes: { low: 150, likely: 301, high: 400 } }),
      'tasks[2].oneGo: takes 301 minutes in one go even with its largest crew',
    ],
    [
      'a closer without an opener',
      (y) => at(y.tasks, 2).closes.push('frame-12'),
      'tasks[2].closes[1]: nothing opens frame-12',
    ],
    [
      'two openers of one plank',
      (y) => at(y.tasks, 1).opens.push('plank-s9a'),
      'tasks[1].opens[0]: pull-nails opens plank-s9a already',
    ],
    [
      'links that run in a circle',
      (y) =>
        y.links.push({
          before: 'bungs-set',
          after: 'saw-plank',
          relation: 'finish-to-start',
          lagMinutes: 0,
          lagKind: 'elapsed',
        }),
      'links[6]: closes a circle: hang-plank, then bungs-set, then saw-plank, then hang-plank',
    ],
    [
      'a task that follows itself',
      (y) => (at(y.links, 0).after = 'pull-nails'),
      'links[0].after: pull-nails follows itself',
    ],
    [
      'a rule that never occurs',
      (y) => (at(y.turnoutRules, 0).rule = 'FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30'),
      'turnoutRules[0].rule: the rule never occurs',
    ],
    [
      'a rule of availability that never occurs',
      (y) => (at(at(y.volunteers, 0).availability.rules, 0).rule = 'FREQ=MONTHLY;BYDAY=6MO'),
      'volunteers[0].availability.rules[0].rule: the rule never occurs',
    ],
    [
      'a gate before the haul-out',
      (y) => (at(y.haulOut.liftSlots, 0).on = '2027-03-01'),
      'haulOut.liftSlots[0].on: is not after the haul-out',
    ],
    [
      'a yard without a gate',
      (y) => (at(y.haulOut.liftSlots, 0).kind = 'later'),
      'haulOut.liftSlots: 0 of the slots are the gate',
    ],
    [
      'a yard whose slots are all given back',
      (y) => {
        for (const { words } of y.haulOut.liftSlots)
          words.push({ word: 'released', on: '2027-03-01', by: 'Thandeka', yardSays: null, note: null });
      },
      'haulOut.liftSlots: are all released',
    ],
    [
      'a slot that is confirmed twice',
      (y) => at(y.haulOut.liftSlots, 1).words.push(at(at(y.haulOut.liftSlots, 1).words, 0)),
      'haulOut.liftSlots[1].words[1].word: is confirmed already',
    ],
    [
      'turnouts that overlap',
      (y) => y.singleTurnouts.push({ on: '2027-03-10', startTime: '13:00', endTime: '18:00', note: null }),
      'singleTurnouts[2]: overlaps turnoutRules[0] on 2027-03-10',
    ],
    [
      'a place where there is no turnout',
      (y) => (at(y.places, 0).on = '2027-03-08'),
      'places[0].on: there is no turnout on 2027-03-08 at 09:00',
    ],
    [
      'a round at the pumps at a turnout that is no watch',
      (y) => Object.assign(at(y.turnoutBook?.pumpLog ?? [], 1), { on: '2027-03-06', startTime: '09:00' }),
      'turnoutBook.pumpLog[1].on: there is no watch on 2027-03-06 at 09:00',
    ],
    [
      'somebody in two places at once',
      (y) => (at(y.places, 1).volunteer = 'marguerite-alkin'),
      'places[1]: marguerite-alkin is in two places at once',
    ],
    [
      'a count for work that is not counted',
      (y) => (at(y.tallies, 0).task = 'saw-plank'),
      'tallies[0].count: this task is not counted',
    ],
  ])('refuses %s', (_what, change, expected) => {
    expect(faultsAfter(change)).toEqual(expect.arrayContaining([expect.stringContaining(expected)]));
  });

  it('refuses a closing task that its opener has to wait for', () => {
    const turned = (y: YardDocument) => {
      y.links = y.links.filter((link) => link.before !== 'pull-nails');
      y.links.push({
        before: 'hang-plank',
        after: 'pull-nails',
        relation: 'finish-to-start',
        lagMinutes: 0,
        lagKind: 'elapsed',
      });
    };
    expect(faultsAfter(turned)).toEqual([
      'tasks[2].closes[0]: pull-nails opens plank-s9a but has to wait for hang-plank, which closes it',
    ]);
  });
});
