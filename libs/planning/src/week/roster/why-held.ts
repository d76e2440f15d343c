import type { CostKind, CostTerm, Instead } from '@ribband/engine';
import type { ToldPlan } from '../../plans/told-plan.js';
import { listOf } from '../../words/days.js';
import { stayAt } from '../presence.js';
import { whyThere } from '../why.js';
import type { SeatsInARow } from './berths.js';
import type { RosterFacts } from './candidates.js';
import type { HeldSeat, WeekRoster } from './make-roster.js';
import type { WeekSeat } from './seats-of-week.js';

/** Why somebody has a seat. */
export interface SeatWhy {
  /** What they are there for, as a sentence for them. */
  there: string;
  /** Who else could be and why they are not: for those who put the week together, and for nobody else. */
  instead: string;
}

/** Why people have the seats of a roster, in sentences. */
export class WhyHeld {
  readonly #berthOf = new Map<string, number>();
  readonly #holderOf = new Map<string, number>();

  constructor(
    private readonly told: ToldPlan,
    private readonly roster: WeekRoster,
    private readonly facts: Pick<RosterFacts, 'knows'>,
  ) {
    roster.berths.forEach((row, b) => {
      for (const { key } of row.seats) this.#berthOf.set(key, b);
    });
    for (const { seat, person } of roster.held) if (person !== null) this.#holderOf.set(seat.key, person);
  }

  /** @param held the seats as they are, of this roster or changed since */
  of({ seat, person, isFixed }: HeldSeat, held: readonly HeldSeat[]): SeatWhy | null {
    if (person === null) return null;
    const there = this.#role(seat, person, held);
    if (isFixed) return { there, instead: ' Settled already.' };
    if (this.#holderOf.get(seat.key) !== person) return { there, instead: '' };
    const row = this.#rowOfSeat(seat);
    const main = row?.seats.find((one) => one.seat !== null) ?? row?.seats[0];
    if (main && main.key !== seat.key && main.task !== seat.task)
      return { there, instead: ` The same people as on ${this.#title(main.task)}.` };
    const isOnly = there.includes('the only one that day');
    return { there, instead: this.#choice(seat, person, isOnly) };
  }

  #role(seat: WeekSeat, person: number, held: readonly HeldSeat[]): string {
    const stretches = held.flatMap((one) =>
      one.person !== null && one.seat.work === seat.work
        ? [{ ...one.seat, person: one.person, seat: one.seat.seat }]
        : [],
    );
    const { task, turnout, start, end } = seat;
    return whyThere(
      this.told,
      { ...seat.work, stretches },
      { task, turnout, person, seat: seat.seat, start, end },
      this.facts.knows(person, task) === true,
    );
  }

  /** What the roster's arcs say: who would be next, and what speaks against it. */
  #choice(seat: WeekSeat, person: number, isOnly: boolean): string {
    const b = this.#berthOf.get(seat.key);
    const seated = b === undefined ? undefined : this.roster.seated.get(b);
    if (b === undefined || !seated) return '';
    if (seated.instead) return this.#next(b, seated.terms, seated.instead);
    const others = (this.roster.problem.berths[b]?.may ?? []).filter((one) => one.person !== person);
    if (others.length === 0) return isOnly ? '' : ` Nobody else who comes may do ${this.#rowSays(b)}.`;
    if (!this.#isSkilled(b)) return '';
    const where = others.slice(0, 2).map((one) => this.#kept(one.person, seat.turnout));
    return others.length <= 2
      ? ` Others who may do it: ${listOf(where)}.`
      : ` ${others.length} others may do it, and all are needed where they are.`;
  }

  /** "Anselm Druitt, needed on “Saw frame 12”" */
  #kept(person: number, turnout: number): string {
    const row = this.#rowOf(person, turnout);
    const name = this.#name(person);
    if (row) return `${name}, needed on ${this.#first(row)}`;
    const later = this.roster.berths.find(
      (one, b) => one.turnout !== turnout && this.roster.seated.get(b)?.person === person,
    );
    return later ? `${name}, kept for ${this.#day(later.turnout)}` : name;
  }

  #next(b: number, own: readonly CostTerm[], { more, moves }: Instead): string {
    const [first, ...rest] = moves;
    if (!first) return '';
    const name = this.#name(first.person);
    const from = this.#rowOf(first.person, this.roster.berths[b]?.turnout ?? -1);
    const leaves = from
      ? rest[0]
        ? `, and ${this.#name(rest[0].person)} would have to take ${this.#first(from)}`
        : `, who would have to leave ${this.#first(from)}`
      : '';
    const theirs = this.roster.problem.berths[b]?.may.find((one) => one.person === first.person)?.terms ?? [];
    const against = reasonsOver(theirs, own);
    const isSkilled = this.#isSkilled(b);
    // Of plain hands anybody would do: only what concerns this work is worth a word.
    if (!isSkilled && !theirs.some((term) => ofThisWork.has(term.kind))) return '';
    if (more === 0) return ` ${name} would do as well${leaves}.`;
    return ` Next would be ${name}${against.length > 0 ? `, but ${listOf(against)}` : ''}${leaves}.`;
  }

  #rowOf(person: number, turnout: number): SeatsInARow | undefined {
    return this.roster.berths.find(
      (row, b) => row.turnout === turnout && this.roster.seated.get(b)?.person === person,
    );
  }

  #name(person: number): string {
    return this.told.problem.people[person]?.name ?? '';
  }

  #rowOfSeat({ key }: WeekSeat): SeatsInARow | undefined {
    return this.roster.berths[this.#berthOf.get(key) ?? -1];
  }

  #isSkilled(b: number): boolean {
    return this.roster.berths[b]?.seats.some(({ seat }) => seat !== null) ?? false;
  }

  #rowSays(b: number): string {
    return (this.roster.berths[b]?.seats.length ?? 0) > 1 ? 'this and what comes after' : 'it';
  }

  #title(task: number): string {
    return `“${this.told.problem.tasks[task]?.name ?? ''}”`;
  }

  #first(row: SeatsInARow): string {
    return this.#title(row.seats[0]?.task ?? -1);
  }

  #day(turnout: number): string {
    return this.told.days.atWeekday(this.told.instant(this.told.problem.turnouts[turnout]?.start ?? 0));
  }
}

const ofThisWork: ReadonlySet<CostKind> = new Set([
  'new to it',
  'dull again',
  'asked before',
  'ends a lesson',
]);

const words: Record<Exclude<CostKind, 'not as planned'>, string> = {
  'asked before': 'was not the one asked',
  'ends a lesson': 'is not the one beside whom somebody has said yes to learning it',
  'new to it': 'has not been on it before',
  'dull again': 'has had more than a fair share of plain work',
  scarce: 'has a skill that few have, and is better kept free for it',
  'more than asked': 'can do more than is asked here',
  'has not wished': 'has not wished to learn it',
  slower: 'is still learning, and would take longer',
};

/** What speaks more against one than against the other, the weightiest first; at most two. */
function reasonsOver(theirs: readonly CostTerm[], own: readonly CostTerm[]): string[] {
  return theirs
    .flatMap(({ kind, cost }) => {
      const over = cost - (own.find((one) => one.kind === kind)?.cost ?? 0);
      return kind === 'not as planned' || over <= 0 ? [] : [{ over, said: words[kind] }];
    })
    .sort((a, b) => b.over - a.over)
    .slice(0, 2)
    .map(({ said }) => said);
}

/** Who is expected at a turnout. */
export function expectedAt({ problem }: ToldPlan, turnout: number): number[] {
  return problem.people.flatMap((one, person) => (stayAt(one, turnout) ? [person] : []));
}
