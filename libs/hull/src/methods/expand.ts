import { need, needPositive } from '../refusal.js';
import { countsNeeded, needBook } from './check-book.js';
import {
  type After,
  type Counts,
  type MethodBook,
  type Step,
  type ThreePoint,
  type Touching,
} from './method.js';
import { type ScopedElement } from './scope.js';

/** A task of the vessel as a method makes it; `ref` stays the same however often the scope is expanded. */
export interface MethodTask {
  ref: string;
  title: string;
  kind: Step['kind'];
  /** Name of the element: where on the hull. */
  position: string;
  element: string;
  step: string;
  method: { key: string; version: number };
  estimate:
    | { by: 'count'; unit: string; count: number; perPersonHour: ThreePoint }
    | { by: 'work'; personMinutes: ThreePoint }
    | { by: 'time'; minutes: ThreePoint }
    | null;
  crew: Step['crew'];
  seats: Step['seats'];
  cards: string[];
  leastAge: number | null;
  oneGo: boolean;
  setUpMinutes: number;
  tools: Step['tools'];
  /** Keys of hull elements. */
  opens: string[];
  closes: string[];
  hazards: Step['hazards'];
  cautions: string[];
  noticeDays: number | null;
}

export interface MethodLink {
  before: string;
  after: string;
  relation: After['relation'];
  lagMinutes: number;
  lagKind: 'working' | 'elapsed';
}

export interface Expansion {
  tasks: MethodTask[];
  links: MethodLink[];
}

export const taskRef = (element: string, step: string): string => `${element}-${step}`;

/**
 * Tasks and links of a scope, by the methods of a book. A step without anything to count is left out, and what
 * waited for it waits for what it waited for.
 * @param minutesATurnout working minutes that stand for "one turnout later" in a method.
 */
export function expandScope(book: MethodBook, scope: ScopedElement[], minutesATurnout: number): Expansion {
  needPositive(minutesATurnout, 'minutesATurnout', 'minutes');
  needBook(book);
  const yard = new Yard(book, scope);
  const tasks = scope.flatMap((element) =>
    yard
      .stepsOf(element)
      .filter((step) => isDone(step, element.counts))
      .map((step) => yard.task(element, step)),
  );
  const links = new Map<string, MethodLink>();
  for (const element of scope)
    for (const step of yard.stepsOf(element)) {
      if (!isDone(step, element.counts)) continue;
      for (const link of yard.linksTo(element, step, minutesATurnout))
        links.set(`${link.before} ${link.after} ${link.relation} ${link.lagMinutes} ${link.lagKind}`, link);
    }
  return { tasks, links: [...links.values()] };
}

const isDone = (step: Step, counts: Counts): boolean =>
  countsNeeded(step).every((name) => (counts[name] ?? 0) > 0);

interface Waiting {
  before: string;
  relation: After['relation'];
  turnouts: number;
  elapsedMinutes: number;
}

class Yard {
  private readonly byKey: Map<string, ScopedElement>;

  constructor(
    private readonly book: MethodBook,
    private readonly scope: ScopedElement[],
  ) {
    this.byKey = new Map(scope.map((element) => [element.key, element]));
    need(this.byKey.size === scope.length, 'scope', 'an element is named twice', 'each element once');
  }

  stepsOf(element: ScopedElement): Step[] {
    return this.methodOf(element).steps;
  }

  task(element: ScopedElement, step: Step): MethodTask {
    const method = this.methodOf(element);
    const { key, title, kind, crew, seats, cards, leastAge, oneGo, setUpMinutes, tools } = step;
    const { hazards, cautions, noticeDays } = step;
    return {
      ref: taskRef(element.key, key),
      title: element.kind === 'vessel' ? title : `${element.name}: ${title}`,
      kind,
      position: element.name,
      element: element.key,
      step: key,
      method: { key: method.key, version: method.version },
      estimate: this.estimate(step, element.counts),
      crew,
      seats,
      cards,
      leastAge,
      oneGo,
      setUpMinutes,
      tools,
      opens: step.opens ? [element.key, ...element.alsoOpens] : [],
      closes: step.closes ? [element.key, ...element.alsoOpens] : [],
      hazards: [...new Set(hazards)],
      cautions: [...new Set(cautions)],
      noticeDays,
    };
  }

  /** What one task waits for. A step that is left out hands on what it waited for itself. */
  linksTo(element: ScopedElement, step: Step, minutesATurnout: number): MethodLink[] {
    return step.after
      .flatMap((after) => this.waitsOf(element, after))
      .map(({ before, relation, turnouts, elapsedMinutes }) => {
        need(
          turnouts === 0 || elapsedMinutes === 0,
          `${step.key}.after`,
          'a step that is left out joins a lag in turnouts to a lag of the calendar',
          'one kind of lag on both sides of a step that can be left out',
        );
        return {
          before,
          after: taskRef(element.key, step.key),
          relation,
          lagMinutes: elapsedMinutes === 0 ? Math.round(turnouts * minutesATurnout) : elapsedMinutes,
          lagKind: elapsedMinutes === 0 ? ('working' as const) : ('elapsed' as const),
        };
      });
  }

  private waitsOf(element: ScopedElement, after: After): Waiting[] {
    const lag = 'turnouts' in after.lag ? after.lag.turnouts : 0;
    const elapsed = 'elapsedMinutes' in after.lag ? after.lag.elapsedMinutes : 0;
    return this.touched(element, after.of).flatMap((other) => {
      const step = this.stepsOf(other).find((one) => one.key === after.step);
      if (step === undefined) return [];
      if (isDone(step, other.counts))
        return [
          {
            before: taskRef(other.key, step.key),
            relation: after.relation,
            turnouts: lag,
            elapsedMinutes: elapsed,
          },
        ];
      return step.after
        .flatMap((earlier) => this.waitsOf(other, earlier))
        .map((wait) => ({
          ...wait,
          relation: joined(wait.relation, after.relation),
          turnouts: wait.turnouts + lag,
          elapsedMinutes: wait.elapsedMinutes + elapsed,
        }));
    });
  }

  private touched(element: ScopedElement, of: Touching): ScopedElement[] {
    const named = (keys: string[]): ScopedElement[] => keys.flatMap((key) => this.byKey.get(key) ?? []);
    switch (of) {
      case 'itself':
        return [element];
      case 'planks over it':
        return named(element.touching.planksOver);
      case 'ceiling over it':
        return named(element.touching.ceilingOver);
      case 'frames under it':
        return named(element.touching.framesUnder);
      case 'strake below':
        return named(element.touching.strakeBelow);
      case 'strake above':
        return named(element.touching.strakeAbove);
      case 'all planks':
        return this.scope.filter((one) => one.kind === 'plank');
      case 'all frames':
        return this.scope.filter((one) => one.kind === 'frame');
      case 'all ceiling':
        return this.scope.filter((one) => one.kind === 'ceiling');
      case 'all causes':
        return this.scope.filter((one) => one.kind === 'cause');
      case 'vessel':
        return this.scope.filter((one) => one.kind === 'vessel');
    }
  }

  private methodOf(element: ScopedElement): MethodBook['methods'][number] {
    const method = this.book.methods.find((one) => one.key === element.method);
    need(method !== undefined, 'method', `there is no method "${element.method}"`, 'a method of this book');
    need(
      method.for === element.kind,
      'method',
      `"${method.key}" is for a ${method.for}, not for ${element.name}`,
      `a method for a ${element.kind}`,
    );
    return method;
  }

  private estimate(step: Step, counts: Counts): MethodTask['estimate'] {
    const { estimate } = step;
    if (estimate?.by === 'count') {
      const rate = this.book.rates.find((one) => one.key === estimate.rate)!;
      const { low, likely, high } = rate;
      const count = Math.round(counts[estimate.count] ?? 0);
      return { by: 'count', unit: rate.unit, count, perPersonHour: { low, likely, high } };
    }
    if (estimate?.by !== 'work') return estimate;
    const times = estimate.each === null ? 1 : (counts[estimate.each] ?? 0);
    const { low, likely, high } = estimate.personMinutes;
    return { by: 'work', personMinutes: { low: low * times, likely: likely * times, high: high * times } };
  }
}

/** A step without length between two links: the first link's near end, the second's far end. */
const joined = (first: After['relation'], second: After['relation']): After['relation'] =>
  `${first.split('-')[0]}-to-${second.split('-')[2]}` as After['relation'];
