import { type Beliefs, forecast, network, type Problem } from '@ribband/engine';
import { cpuSeconds } from '../clock.js';
import { events } from './events.js';
import { figure, type Figure } from './figure.js';
import { changes, overBound, runYard } from './yard-runs.js';

type Fault = (says: string) => void;

/** How long one network pass of the yard takes, once the compiler has seen it. */
function passSeconds(problem: Problem): number {
  let best = Infinity;
  for (let k = 0; k < 5; k++) {
    const begun = cpuSeconds();
    network(problem);
    best = Math.min(best, cpuSeconds() - begun);
  }
  return best;
}

/** Of the first plan, in a process that has planned nothing yet, as in the thread that serves people. */
export function* firstPlan(name: string, problem: Problem, fault: Fault): Generator<Figure> {
  const before = process.resourceUsage().maxRSS / 1024;
  const cold = runYard(problem);
  const peak = process.resourceUsage().maxRSS / 1024;
  cold.faults.forEach(fault);
  const warmed = Math.min(...[1, 2, 3].map(() => runYard(problem).firstSeconds));
  const pass = 1000 * passSeconds(problem);
  yield figure(`${name}: first plan, cold`, 1000 * cold.firstSeconds, 'ms', 'one network pass', pass);
  yield figure(`${name}: first plan, code compiled`, 1000 * warmed, 'ms', 'one network pass', pass);
  yield figure(`${name}: peak memory`, peak, 'MiB', 'with the problem read in', before);
}

/** How near the bound the plan comes, and what one event costs. */
export function* searchAndEvents(
  name: string,
  problem: Problem,
  seconds: number,
  fault: Fault,
): Generator<Figure> {
  const found = runYard(problem, { seconds });
  found.faults.forEach(fault);
  const { plan } = found;
  const gap = (ready: number) => 100 * overBound(problem, ready, plan.bound.ready);
  yield figure(
    `${name}: % over the bound after ${seconds} s`,
    gap(plan.ready),
    '%',
    'the first plan',
    gap(found.firstReady),
  );
  for (const event of events(problem, plan)) {
    const cold = runYard({ ...event.problem, posted: [] }, { seconds: 1 });
    const again = runYard(event.problem, { warm: plan, seconds: 1 });
    again.faults.forEach(fault);
    const warmed = Math.min(...[1, 2, 3].map(() => runYard(event.problem, { warm: plan }).firstSeconds));
    const after = (what: string, seconds: number) =>
      figure(what, 1000 * seconds, 'ms', 'planned anew', 1000 * cold.firstSeconds);
    yield after(`${name}: plan after ${event.name}`, again.firstSeconds);
    yield after(`${name}: plan after ${event.name}, code compiled`, warmed);
    yield figure(
      `${name}: places kept after ${event.name}, of ${event.postings.length} posted`,
      event.postings.length - changes(event.postings, again.plan),
      'places',
      'planned anew',
      event.postings.length - changes(event.postings, cold.plan),
    );
  }
}

/** What it costs to live through many futures of the first plan. */
export function forecastFigure(name: string, problem: Problem, beliefs: Beliefs, futures: number): Figure {
  const { plan } = runYard(problem);
  const begun = cpuSeconds();
  forecast(problem, plan, beliefs, { seed: 1, futures });
  const seconds = cpuSeconds() - begun;
  const many = futures.toLocaleString('en');
  return figure(
    `${name}: forecast, ${many} futures`,
    seconds,
    's',
    `${many} network passes`,
    futures * passSeconds(problem),
  );
}
