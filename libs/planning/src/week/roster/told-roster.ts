import type { Coming } from '../../beliefs/coming.js';
import type { ToldPlan } from '../../plans/told-plan.js';
import { count } from '../../words/days.js';
import { inSentence } from '../../words/hold.js';
import { oddsOfCrews, type SeatedTurnout } from '../crews.js';
import type { RosterFacts } from './candidates.js';
import { type HeldSeat, makeRoster } from './make-roster.js';
import { secondHands, type SecondHand } from './second-hands.js';
import { asksOf, type WeekSeat } from './seats-of-week.js';
import { standingBy } from './stand-by.js';
import { expectedAt, type SeatWhy, WhyHeld } from './why-held.js';

/** A week's roster as it is told: who has which seat and why, who learns beside whom, who stands by. */
export interface ToldRoster {
  held: { seat: WeekSeat; person: number | null; isFixed: boolean; why: SeatWhy | null }[];
  seconds: SecondHand[];
  /** By turnout, ids of those who stand by. */
  swing: ReadonlyMap<number, string[]>;
  /** By turnout, how likely each piece of work has its crew, in words, by task. */
  odds: ReadonlyMap<number, ReadonlyMap<string, string>>;
  /** Seats that the plan counts on and nobody is left for. */
  unfilled: WeekSeat[];
  /** By turnout, whom the coordinator has taken off it: who would have a seat, and has none. They don't stand by. */
  off: ReadonlyMap<number, ReadonlySet<number>>;
}

export interface RosterBasis {
  told: ToldPlan;
  seats: readonly WeekSeat[];
  turnouts: readonly number[];
  facts: RosterFacts;
  coming: Coming;
  /** What the yard wishes each crew's odds to be, 0..1. */
  oddsWish: number;
}

/** Proposes who has which seat, those that are fixed kept. */
export function proposeRoster(basis: RosterBasis, fixed: ReadonlyMap<string, number>): ToldRoster {
  const roster = makeRoster(basis.told, basis.seats, basis.facts, fixed);
  return tell(basis, roster.held, new WhyHeld(basis.told, roster, basis.facts));
}

/** The roster as it is posted, so far as it is; what is not posted yet is proposed. Who was asked stays where they are. */
export function rosterAsPosted(basis: RosterBasis): ToldRoster {
  const { told, facts, seats } = basis;
  const asked = seats.flatMap((seat): [string, number][] => {
    const person = facts.asked.get(seat.key);
    return person === undefined || facts.stops(person, seat).length > 0 ? [] : [[seat.key, person]];
  });
  const roster = makeRoster(told, seats, facts, new Map([...facts.taken, ...asked]));
  const held = roster.held.map((one) => ({ ...one, isFixed: facts.taken.has(one.seat.key) && one.isFixed }));
  return tell(basis, held, new WhyHeld(told, roster, facts));
}

/** Tells a roster as it was put together by hand. */
export function tellRoster(basis: RosterBasis, held: readonly HeldSeat[]): ToldRoster {
  const fixed = new Map(
    held.flatMap(({ seat, person, isFixed }) => (isFixed && person !== null ? [[seat.key, person]] : [])),
  );
  const roster = makeRoster(basis.told, basis.seats, basis.facts, fixed);
  const off = new Map(
    basis.turnouts.map((turnout) => {
      const there = seatedIds(held, turnout);
      return [turnout, new Set([...seatedIds(roster.held, turnout)].filter((person) => !there.has(person)))];
    }),
  );
  return tell(basis, held, new WhyHeld(basis.told, roster, basis.facts), off);
}

function tell(
  basis: RosterBasis,
  held: readonly HeldSeat[],
  why: WhyHeld,
  off: ToldRoster['off'] = new Map(),
): ToldRoster {
  return {
    held: held.map((one) => ({ ...one, why: why.of(one, held) })),
    ...standOf(basis, held, off),
    off,
    unfilled: held.flatMap(({ seat, person }) => (person === null && seat.planned !== null ? [seat] : [])),
  };
}

/** Who learns beside whom, who stands by and how likely each crew is, with these people on the seats. */
export function standOf(
  { told, turnouts, facts, coming, oddsWish }: RosterBasis,
  held: readonly HeldSeat[],
  off: ToldRoster['off'],
): Pick<ToldRoster, 'seconds' | 'swing' | 'odds'> {
  const idle = new Map(turnouts.map((turnout) => [turnout, idleAt(told, held, turnout)]));
  const seconds = secondHands(told, held, idle, facts);
  const swing = new Map<number, string[]>();
  const odds = new Map<number, ReadonlyMap<string, string>>();
  for (const turnout of turnouts) {
    const at = seatedOf(told, held, turnout, coming);
    const learning = new Set(seconds.flatMap((one) => (one.seat.turnout === turnout ? [one.learner] : [])));
    const ids = (people: readonly number[]) =>
      people
        .filter((person) => facts.standsBy(person, turnout) && !off.get(turnout)?.has(person))
        .map((person) => told.problem.people[person]?.id ?? '');
    const spare = {
      idleIds: ids((idle.get(turnout) ?? []).filter((person) => !learning.has(person))),
      extraIds: ids(extraAt(held, turnout)),
    };
    const by = standingBy(told, at, spare, oddsWish);
    swing.set(turnout, by);
    odds.set(turnout, oddsOfCrews(told, { ...at, standingBy: by }));
  }
  return { seconds, swing, odds };
}

/** Who has a seat at a turnout. */
export function seatedIds(held: readonly HeldSeat[], turnout: number): Set<number> {
  return new Set(held.flatMap(({ seat, person }) => (seat.turnout === turnout ? (person ?? []) : [])));
}

/** Who is expected at a turnout and has no seat. */
export function idleAt(told: ToldPlan, held: readonly HeldSeat[], turnout: number): number[] {
  const busy = seatedIds(held, turnout);
  return expectedAt(told, turnout).filter((person) => !busy.has(person));
}

/** Who has only such seats at a turnout that the work could start without, and was not put there. */
function extraAt(held: readonly HeldSeat[], turnout: number): number[] {
  const here = held.filter(({ seat, person }) => seat.turnout === turnout && person !== null);
  const needed = new Set(here.flatMap((one) => (one.seat.isExtra && !one.isFixed ? [] : (one.person ?? []))));
  return [...new Set(here.flatMap(({ person }) => person ?? []))].filter((person) => !needed.has(person));
}

/** A turnout of a roster as the odds look at it, nobody standing by. */
export function seatedOf(
  told: ToldPlan,
  held: readonly HeldSeat[],
  turnout: number,
  coming: Coming,
): Omit<SeatedTurnout, 'standingBy'> {
  const seated = held.flatMap(({ seat, person }) =>
    person !== null && seat.turnout === turnout
      ? [
          {
            volunteerId: told.problem.people[person]?.id ?? '',
            taskId: told.taskId(seat.task),
            minutes: seat.end - seat.start,
          },
        ]
      : [],
  );
  return { turnout, seated, ...coming };
}

/** "needs 1 for sawing", "needs 2 more hands", "room for 1 more hand": what is missing on a piece of work. */
export function gapsOf({ problem }: ToldPlan, held: readonly HeldSeat[]): string[] {
  const empty = held.filter(({ person }) => person === null);
  const bySkill = new Map<string, number>();
  let hands = 0;
  let room = 0;
  for (const { seat } of empty) {
    const { skillId } = asksOf(problem, seat);
    if (skillId !== null) {
      const name = problem.skills.find(({ id }) => id === skillId)?.name ?? '';
      bySkill.set(name, (bySkill.get(name) ?? 0) + 1);
    } else if (seat.isExtra) room++;
    else hands++;
  }
  return [
    ...[...bySkill].map(([name, many]) => `needs ${many} for ${inSentence(name)}`),
    ...(hands > 0 ? [`needs ${count(hands, 'more hand', 'more hands')}`] : []),
    ...(room > 0 ? [`room for ${count(room, 'more hand', 'more hands')}`] : []),
  ];
}
