import { smallYard } from '../generate/small-yard.js';
import { mean } from '../research/deviation.js';
import { besideClassical, besideYard, type Beside } from '../rival/beside.js';
import { Solver } from '../rival/solver.js';
import { scarce } from './classical.js';
import { figure, type Figure } from './figure.js';

type Fault = (says: string) => void;

/** The engine and a general constraint solver side by side: same problems, same computing time, one thread each. */
export async function sideBySide(seconds: number, fault: Fault): Promise<Figure[]> {
  const solver = new Solver();
  try {
    const figures: Figure[] = [];
    for (const [tasks, count] of [
      [30, 8],
      [60, 6],
    ]) {
      const runs: Beside[] = [];
      for (const [k, instance] of scarce(tasks, count).entries())
        runs.push(await besideClassical(solver, `${tasks} tasks, number ${k}`, instance, seconds));
      figures.push(...compared(`${count} projects of ${tasks} tasks, ${seconds} s each`, runs, fault));
    }
    const yards: Beside[] = [];
    for (const [k, tasks] of [20, 30, 45, 60].entries()) {
      const problem = smallYard({ tasks, people: 12, weeks: 30, seed: k + 1 });
      yards.push(await besideYard(solver, `yard of ${tasks} tasks`, problem, seconds));
    }
    figures.push(...compared(`${yards.length} small yards, ${seconds} s each`, yards, fault));
    return figures;
  } finally {
    await solver.close();
  }
}

/** How many each side has proved, and how good its plans are: over the better of the two, nothing found not counted. */
export function compared(name: string, runs: Beside[], fault: Fault): Figure[] {
  for (const { name: which, ours, theirs } of runs)
    for (const says of [...ours.faults, ...theirs.faults]) fault(`${which}: ${says}`);
  const over = (side: 'ours' | 'theirs') =>
    100 *
    (mean(
      runs.flatMap(({ ours, theirs }) => {
        const own = side === 'ours' ? ours.value : theirs.value;
        return own === null ? [] : [own / Math.min(ours.value ?? own, theirs.value ?? own) - 1];
      }),
    ) ?? 0);
  const count = (side: 'ours' | 'theirs', what: (one: Beside['ours']) => boolean) =>
    runs.filter((run) => what(run[side])).length;
  const proved = ({ proved: is }: Beside['ours']) => is;
  const found = ({ value }: Beside['ours']) => value !== null;
  const solver = 'general constraint solver';
  return [
    figure(`${name}: proved`, count('ours', proved), 'problems', solver, count('theirs', proved)),
    figure(`${name}: with a plan`, count('ours', found), 'problems', solver, count('theirs', found)),
    figure(
      `${name}: mean end, the better of both at 100`,
      100 + over('ours'),
      'of 100',
      solver,
      100 + over('theirs'),
    ),
  ];
}
