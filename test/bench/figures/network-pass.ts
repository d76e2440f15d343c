import { Lengths, network, NetworkPass, WorkCalendar, type Link } from '@ribband/engine';
import { cpuSeconds } from '../clock.js';
import { Dice } from '../generate/dice.js';
import { usualYard, generatedYard } from '../generate/yard.js';
import { range } from '../generate/links.js';
import { figure, type Figure } from './figure.js';

const TASKS = 100_000;
const LINKS = 300_000;
const RUNS = 5;

/**
 * The network pass over a hundred thousand tasks, against reading as many numbers there and back again: the pass by
 * itself, as bounds run it over and over, and with the records laid into rows first.
 */
export function networkPass(): Figure[] {
  const dice = new Dice(1);
  const yard = generatedYard({ ...usualYard(12, 1), people: 8 });
  const links = range(0, LINKS).map((): Link => {
    const after = dice.whole(1, TASKS - 1);
    const before = dice.whole(Math.max(0, after - 500), after - 1);
    return { before, after, relation: 'finish-to-start', lag: 0, lagKind: 'elapsed' };
  });
  const problem = {
    ...yard,
    tasks: range(0, TASKS).map((i) => ({
      ...yard.tasks[0],
      id: String(i),
      effort: { kind: 'fixed' as const, minutes: 5 * dice.whole(1, 12) },
      opens: [],
      closes: [],
    })),
    links,
    elements: [],
    openingLimits: [],
  };
  const laid = new NetworkPass(problem, new Lengths(problem, new WorkCalendar(problem.turnouts)));
  const pass = least(() => laid.run());
  const whole = least(() => {
    if (network(problem).kind !== 'network') throw new Error('links that go upwards make no circle');
  });
  const plain = 1000 * plainPass(links);
  const beside = (name: string, seconds: number) =>
    figure(name, 1000 * seconds, 'ms', 'reading and writing as many numbers', plain);
  return [
    beside('100,000 tasks and 300,000 links: dates, floats, driving links', pass),
    beside('100,000 tasks and 300,000 links: the same from the records', whole),
  ];
}

/** Both ways over arrays of the same sizes: a task's end from those before it, and its latest from those after. */
function plainPass(links: Link[]): number {
  const from = Int32Array.from(links, ({ before }) => before);
  const to = Int32Array.from(links, ({ after }) => after);
  const early = new Int32Array(TASKS);
  const late = new Int32Array(TASKS);
  return least(() => {
    for (let k = 0; k < LINKS; k++) early[to[k]] = Math.max(early[to[k]], early[from[k]] + 1);
    for (let k = LINKS - 1; k >= 0; k--) late[from[k]] = Math.min(late[from[k]], late[to[k]] - 1);
  });
}

/** The least computing time of some runs, in seconds. */
function least(run: () => void): number {
  let best = Infinity;
  for (let k = 0; k < RUNS; k++) {
    const begun = cpuSeconds();
    run();
    best = Math.min(best, cpuSeconds() - begun);
  }
  return best;
}
