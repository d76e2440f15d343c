import type { Problem } from '@ribband/engine';
import { adultAge, ageOn, visitorsBelow } from '@ribband/crew';
import { AskedOf } from './asked-of.js';
import type { PlanClock } from './minutes.js';
import type { HandRecord, TaskRecord, YardRecords } from './yard-records.js';

/** Below this a person comes on a visit only, and the plan counts on nobody whose work would need it said. */
export const leastWorkingAge = visitorsBelow;

/**
 * What people must hold for some tasks, as the engine's clearances: each kind of card, each age asked for, and being
 * an adult where someone under 18 might otherwise be alone.
 *
 * Ages are taken as of the plan's day: a birthday to come opens work only in the plan made after it.
 */
export class Clearances {
  readonly list: Problem['clearances'] = [];
  readonly #index = new Map<string, number>();
  readonly #ages: number[];
  readonly #asked: AskedOf;

  /** @param today the plan's day: what parents have said yes to is taken as of it, as ages are */
  constructor(yard: Pick<YardRecords, 'cardKinds' | 'tasks' | 'hands'>, today: string) {
    for (const kind of yard.cardKinds) this.#add(kind.id, kind.name);
    this.#ages = [...new Set([adultAge, ...yard.tasks.map((task) => task.leastAge)])]
      .filter((age) => age > leastWorkingAge)
      .sort((a, b) => a - b);
    for (const age of this.#ages) this.#add(ageKey(age), `${String(age)} or older`);
    this.#asked = new AskedOf(yard.hands, today);
    for (const kind of this.#asked.kinds) this.#add(kindKey(kind), `given work of the kind: ${kind}`);
  }

  card(kindId: string): number {
    return this.#get(kindId);
  }

  get adult(): number {
    return this.#get(ageKey(adultAge));
  }

  /** What everybody on the task must hold. */
  ofTask(task: TaskRecord): number[] {
    const cards = task.cardIds.map((kindId) => this.card(kindId));
    const kinds = this.#asked.ofTask(task).map((kind) => this.#get(kindKey(kind)));
    const age = task.leastAge > leastWorkingAge ? [this.#get(ageKey(task.leastAge))] : [];
    return [...cards, ...age, ...kinds];
  }

  /** What a person holds; cards that lapsed before the plan begins are left out. */
  ofHand(hand: HandRecord, day: string, clock: PlanClock): Problem['people'][number]['clearances'] {
    const held = new Map<number, number | null>();
    for (const card of hand.cards) {
      if (card.expiresOn !== null && card.expiresOn < day) continue;
      const clearance = this.card(card.kindId);
      const until = card.expiresOn === null ? null : clock.endOfDay(card.expiresOn) - 1;
      const known = held.get(clearance);
      if (known === null) continue;
      held.set(clearance, until === null || known === undefined ? until : Math.max(known, until));
    }
    const age = hand.bornOn === null ? null : ageOn(hand.bornOn, day);
    for (const least of this.#ages)
      if (age !== null && age >= least) held.set(this.#get(ageKey(least)), null);
    for (const kind of this.#asked.kinds)
      if (!this.#asked.isKeptFrom(hand.id, kind)) held.set(this.#get(kindKey(kind)), null);
    return [...held].map(([clearance, until]) => ({ clearance, until }));
  }

  #add(key: string, name: string): void {
    this.#index.set(key, this.list.length);
    this.list.push({ id: key, name });
  }

  #get(key: string): number {
    const index = this.#index.get(key);
    if (index === undefined)
      throw new Error(`No clearance ${key}: a record names what the yard does not have`);
    return index;
  }
}

const kindKey = (kind: string): string => `kind-${kind}`;
const ageKey = (age: number): string => `age-${String(age)}`;

/** True for somebody known to be younger than an adult. */
export function isMinorOn(hand: Pick<HandRecord, 'bornOn'>, day: string): boolean {
  return hand.bornOn !== null && ageOn(hand.bornOn, day) < adultAge;
}
