import { HullRefusal } from '../refusal.js';
import {
  COUNT_NAMES,
  type CountName,
  type ElementKind,
  HAZARDS,
  type Method,
  type MethodBook,
  type Step,
  type Touching,
} from './method.js';

/** What is wrong in a book of methods, and where. */
export interface BookFault {
  path: string;
  message: string;
  wouldBeRight: string;
}

const TOUCHED: Record<Exclude<Touching, 'itself'>, ElementKind> = {
  'planks over it': 'plank',
  'ceiling over it': 'ceiling',
  'frames under it': 'frame',
  'strake below': 'plank',
  'strake above': 'plank',
  'all planks': 'plank',
  'all frames': 'frame',
  'all ceiling': 'ceiling',
  'all causes': 'cause',
  vessel: 'vessel',
};

const SLUG = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** All faults of a book at once; an empty list means that it can be used. */
export function checkBook(book: MethodBook): BookFault[] {
  const faults: BookFault[] = [];
  const say = (path: string, message: string, wouldBeRight: string): void => {
    faults.push({ path, message, wouldBeRight });
  };
  const keys = (list: { key: string }[], path: string): void => {
    list.forEach(({ key }, index) => {
      if (!SLUG.test(key)) say(`${path}[${index}].key`, `"${key}" is no key`, 'words joined by hyphens');
      if (list.findIndex((one) => one.key === key) < index)
        say(`${path}[${index}].key`, `"${key}" is used twice`, 'a key of its own');
    });
  };
  keys(book.rates, 'rates');
  keys(book.methods, 'methods');
  book.rates.forEach((rate, index) => {
    if (!(rate.low > 0 && rate.low <= rate.likely && rate.likely <= rate.high))
      say(
        `rates[${index}]`,
        'the three rates are out of order',
        '0 < low <= likely <= high, per person-hour',
      );
  });
  book.methods.forEach((method, index) => {
    keys(method.steps, `methods[${index}].steps`);
    method.steps.forEach((step, at) => {
      checkStep(book, step, `methods[${index}].steps[${at}]`, say);
      checkAfters(book, method, step, `methods[${index}].steps[${at}]`, say);
    });
    checkOpening(method, `methods[${index}].steps`, say);
    const turning = circleIn(method);
    if (turning)
      say(`methods[${index}].steps`, `steps wait for each other: ${turning}`, 'an order without circles');
  });
  return faults;
}

/** Refuses a book with faults, naming the first. */
export function needBook(book: MethodBook): void {
  const fault = checkBook(book).at(0);
  if (fault) throw new HullRefusal(fault.path, fault.message, fault.wouldBeRight);
}

/** Counts without any of which a step is left out. */
export function countsNeeded({ onlyWith, estimate }: Step): CountName[] {
  const counted = estimate?.by === 'count' ? estimate.count : estimate?.by === 'work' ? estimate.each : null;
  return [...new Set([onlyWith, counted].filter((name) => name !== null))];
}

type Say = (path: string, message: string, wouldBeRight: string) => void;

function checkStep(book: MethodBook, step: Step, path: string, say: Say): void {
  const { crew, estimate, seats } = step;
  const seated = seats.reduce((sum, seat) => sum + seat.count, 0);
  if (!(crew.min <= crew.efficient && crew.efficient <= crew.max && crew.min >= 0))
    say(`${path}.crew`, 'the crew is out of order', '0 <= min <= efficient <= max');
  if (seated > crew.max)
    say(`${path}.seats`, `${seated} seats for a crew of ${crew.max}`, 'no more seats than crew');
  if ((step.kind === 'work' || step.kind === 'fixed') && crew.min < 1)
    say(`${path}.crew.min`, 'work without hands', 'at least 1');
  if ((estimate === null) !== (step.kind === 'hold' || step.kind === 'launch'))
    say(
      `${path}.estimate`,
      'the estimate does not fit the kind',
      'none for a hold or launch, one for all else',
    );
  if (estimate?.by === 'count') {
    const { rate, count } = estimate;
    if (!book.rates.some((one) => one.key === rate))
      say(`${path}.estimate.rate`, `there is no rate "${rate}"`, 'a rate of this book');
    if (!COUNT_NAMES.includes(count))
      say(`${path}.estimate.count`, `nothing counts "${count}"`, COUNT_NAMES.join(', '));
  }
  const three =
    estimate?.by === 'work' ? estimate.personMinutes : estimate?.by === 'time' ? estimate.minutes : null;
  if (three && !(three.low > 0 && three.low <= three.likely && three.likely <= three.high))
    say(`${path}.estimate`, 'the three times are out of order', '0 < low <= likely <= high, in minutes');
  if (estimate?.by === 'time' && step.kind === 'work')
    say(`${path}.estimate`, 'work with a set length', 'person-minutes or a count, or kind fixed or elapsed');
  step.hazards.forEach((hazard, index) => {
    if (!HAZARDS.includes(hazard))
      say(`${path}.hazards[${index}]`, `"${hazard}" is not known`, HAZARDS.join(', '));
  });
}

/** What is opened is sure to be shut: one step opens, one closes, both kept or both left out. */
function checkOpening(method: Method, path: string, say: Say): void {
  const openers = method.steps.filter((step) => step.opens);
  const closers = method.steps.filter((step) => step.closes);
  if (openers.length > 1 || openers.length !== closers.length)
    say(
      path,
      `${openers.length} steps open and ${closers.length} close`,
      'one opener and one closer, or neither',
    );
  const [opener, closer] = [openers.at(0), closers.at(0)];
  const needed = (step: Step): string => countsNeeded(step).sort().join(' ');
  if (opener && closer && needed(opener) !== needed(closer))
    say(
      path,
      `"${opener.key}" opens with other counts than "${closer.key}" closes with`,
      'the same counts for both, so that neither is left out alone',
    );
}

function checkAfters(book: MethodBook, method: Method, step: Step, path: string, say: Say): void {
  step.after.forEach((after, index) => {
    const holders =
      after.of === 'itself'
        ? [method]
        : book.methods.filter((one) => one.for === TOUCHED[after.of as 'vessel']);
    if (!holders.some((one) => one.steps.some((other) => other.key === after.step)))
      say(
        `${path}.after[${index}].step`,
        `no method for ${after.of} has a step "${after.step}"`,
        'the key of a step of this method, or of a method for what touches it',
      );
  });
}

/** A circle among a method's own steps, as its keys, or null. Start-to-start and the like count too. */
function circleIn(method: Method): string | null {
  const state = new Map<string, 'open' | 'done'>();
  const visit = (key: string, trail: string[]): string | null => {
    if (state.get(key) === 'done') return null;
    if (state.get(key) === 'open') return [...trail.slice(trail.indexOf(key)), key].join(', ');
    state.set(key, 'open');
    const step = method.steps.find((one) => one.key === key);
    for (const after of step?.after.filter((one) => one.of === 'itself') ?? []) {
      const found = visit(after.step, [...trail, key]);
      if (found) return found;
    }
    state.set(key, 'done');
    return null;
  };
  for (const step of method.steps) {
    const found = visit(step.key, []);
    if (found) return found;
  }
  return null;
}
