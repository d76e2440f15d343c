import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { checkProblem, lowerBound, solve } from '@ribband/engine';
import fc from 'fast-check';
import { def, dzn, sm } from './classical.fixture.js';
import { answers } from '../bench/answer.js';
import { BadFile, type Instance } from '../bench/instance.js';
import { readInstance } from '../bench/read-instance.js';
import { scheduleOf, toProblem } from '../bench/to-problem.js';
import { verifySchedule, type Printed } from '../bench/verify-schedule.js';

const files: [string, string, number][] = [
  ['a.sm', sm, 9],
  ['a.dzn', dzn, 5],
  ['a.def', def, 7],
];

function printed(instance: Instance, seed = 1): Printed {
  const problem = toProblem(instance);
  const outcome = solve(problem, { seed, schedules: 200 });
  if (outcome.kind !== 'plan') throw new Error('no plan');
  return { ...scheduleOf(instance, problem, outcome.plan), makespan: outcome.plan.ready };
}

describe('classical instances', () => {
  it.each(files)('%s is read, solved to the best there is and keeps its own rules', (name, text, best) => {
    const instance = readInstance(name, text);
    expect(checkProblem(toProblem(instance))).toEqual([]);
    const schedule = printed(instance);
    expect(verifySchedule(instance, schedule)).toEqual([]);
    expect(schedule.makespan).toBe(best);
    expect(lowerBound(toProblem(instance)).ready).toBeLessThanOrEqual(best);
  });

  const bad: [string, string, string, string, string][] = [
    [
      'a.sm',
      sm,
      '   2        1          1           4',
      '   2        1          2           4',
      'line 8: says 2 successors and lists 1',
    ],
    ['a.sm', sm, '2           2   3', '2           2   9', 'line 7: successor 9 is not one of 5 jobs'],
    [
      'a.sm',
      sm,
      '  3      1     4       2    1',
      '  3      1     x       2    1',
      'line 18: duration must be a whole number, is "x"',
    ],
    [
      'a.sm',
      sm,
      '  3      1     4       2    1',
      '  3      1     4       4    1',
      'line 18: takes 4 of resource 1, there are 3',
    ],
    [
      'a.sm',
      sm,
      '   5        1          0',
      '   5        1          1           2',
      'line 5: tasks wait for each other in a circle',
    ],
    ['a.sm', sm, 'REQUESTS/DURATIONS:', '', 'line 26: no section "REQUESTS/DURATIONS"'],
    ['a.dzn', dzn, 'dur = [0,3,2,0]', 'dur = [0,3,2]', 'line 3: dur must have 4 values, has 3'],
    ['a.dzn', dzn, '| false,true', '| maybe,true', 'line 11: must be true or false, is "maybe"'],
    ['a.dzn', dzn, 'nSkills = 2;', '', 'line 1: no value "nSkills"'],
    ['a.dzn', dzn, '[2,3,4,4]', '[2,3,4,5]', 'line 13: 5 is not one of 4 tasks'],
    [
      'a.sm',
      sm,
      '  3      1     4  ',
      '  3      1    -4  ',
      'line 18: duration must be a whole number, is "-4"',
    ],
    ['a.dzn', dzn, '| 0,2', '| 0,3', 'line 7: task 3 needs 3 with skill 2, there are 2'],
    ['a.dzn', dzn, 'dur = [0,3', 'dur = [0,-3', 'line 3: dur must be a whole number, is "-3"'],
    ['a.dzn', dzn, 'dur = [0,3', 'dur = [0,three', 'line 3: dur must be a whole number, is "three"'],
    ['a.dzn', dzn, 'succ = [2,3,4,4]', 'succ = [2,3,1,1]', 'tasks wait for each other in a circle'],
    [
      'a.def',
      def,
      '2 \t 4 \t Q1: 2',
      '2 \t -4 \t Q1: 2',
      'line 11: duration must be a whole number, is "-4"',
    ],
    ['a.def', def, '1 \t 5 \t Q0: 1', '1 \t 5 \t Q0: 1 \t 3', 'tasks wait for each other in a circle'],
    ['a.def', def, '4 \t Q1: 2', '4 \t Q1: 3', 'line 11: nobody has Q1: 3'],
    ['a.def', def, 'Q0: 0 \t 1 2', 'Q0: 0 \t 1 7', 'line 12: predecessor 7 is no task'],
    ['a.def', def, 'Tasks: 3', 'Tasks: 4', 'line 2: says 4, the file lists 3'],
    ['a.txt', sm, '', '', 'line 1: the name must end in .sm, .dzn or .def'],
  ];

  it.each(bad)('a bad %s names its line', (name, text, from, to, says) => {
    expect(text).toContain(from);
    const broken = text.replace(from, to);
    expect(() => readInstance(name, broken)).toThrow(BadFile);
    expect(() => readInstance(name, broken)).toThrow(says);
  });

  it('a file cut short anywhere is refused or read, never a crash', () => {
    fc.assert(
      fc.property(fc.constantFrom(...files), fc.nat(2000), ([name, text], cut) => {
        try {
          readInstance(name, text.slice(0, cut));
        } catch (error) {
          expect(error).toBeInstanceOf(BadFile);
        }
      }),
      { numRuns: 600 },
    );
  });
});

describe('the verifier of classical schedules', () => {
  const wrong: [string, number, (schedule: Printed) => void, RegExp][] = [
    ['a start before the one before it ends', 0, (s) => (s.starts[3] = 0), /^task 4 starts at 0/],
    ['too much of a resource', 0, (s) => (s.starts[2] = s.starts[1]), /^resource 1: 4 of 3/],
    ['a wrong makespan', 0, (s) => (s.makespan = 10), /^makespan 10 told, the last task ends at 9/],
    ['a person in two places', 1, (s) => (s.starts[2] = s.starts[1]), /in two places/],
    ['a place not filled', 1, (s) => ((s.assign as number[][][])[2].length = 1), /^task 3 has 1 of 2/],
    [
      'a skill that is not there',
      1,
      (s) => ((s.assign as number[][][])[1][0][0] = 2),
      /^person 2 lacks skill 1/,
    ],
    ['a level that is not there', 2, (s) => ((s.assign as number[])[0] = 1), /^resource 1 may not do task 1/],
    ['a start that is missing', 2, (s) => s.starts.pop(), /^2 starts, 3 tasks/],
  ];

  it.each(wrong)('names %s', (_, file, change, says) => {
    const [name, text] = files[file];
    const instance = readInstance(name, text);
    const schedule = printed(instance);
    expect(verifySchedule(instance, schedule)).toEqual([]);
    change(schedule);
    expect(verifySchedule(instance, schedule)).toContainEqual(expect.stringMatching(says));
  });
});

describe('the solve command', () => {
  const folder = mkdtempSync(join(tmpdir(), 'bench-'));
  const write = (name: string, text: string) => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  it('prints a line of JSON a file, the same for the same seed', () => {
    const paths = files.map(([name, text]) => write(name, text));
    const run = () => {
      const lines: string[] = [];
      const failed = answers(paths, { schedules: 100, seconds: undefined, seed: 7 }, (line) =>
        lines.push(line),
      );
      expect(failed).toBe(false);
      return lines.map((line) => JSON.parse(line) as Record<string, unknown>);
    };
    const first = run();
    expect(first.map((one) => one.makespan)).toEqual([9, 5, 7]);
    expect(Object.keys(first[0])).toEqual([
      'file',
      'makespan',
      'starts',
      'lowerBound',
      'proved',
      'schedules',
      'seconds',
    ]);
    expect(Object.keys(first[1])).toContain('assign');
    expect(run().map((one) => one.starts)).toEqual(first.map((one) => one.starts));
  });

  it('says which file can not be read and goes on with the rest', () => {
    const paths = [write('bad.sm', 'nothing'), join(folder, 'none.def'), write('good.dzn', dzn)];
    const lines: string[] = [];
    expect(answers(paths, { schedules: 10, seconds: undefined, seed: 1 }, (line) => lines.push(line))).toBe(
      true,
    );
    const told = lines.map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(told[0]).toEqual({ file: paths[0], error: 'line 1: no line "jobs"' });
    expect(told[1].error).toMatch(/ENOENT/);
    expect(told[2].makespan).toBe(5);
  });

  it('stops when its time is over', () => {
    const begun = performance.now();
    answers([write('slow.sm', sm)], { schedules: undefined, seconds: 0.2, seed: 1 }, () => undefined);
    expect(performance.now() - begun).toBeLessThan(5000);
  });
});
