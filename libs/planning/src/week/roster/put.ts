import { listOf } from '../../words/days.js';
import { inSentence } from '../../words/hold.js';
import { isAble } from './candidates.js';
import type { HeldSeat } from './make-roster.js';
import { asksOf, overlaps, type WeekSeat } from './seats-of-week.js';
import { type RosterBasis, seatedIds, standOf, type ToldRoster } from './told-roster.js';

/**
 * A week with somebody put on a place, or with the place emptied: who was there has none then, and who is put leaves
 * what they had at that time. Nobody else moves.
 */
export function put(held: readonly HeldSeat[], seat: WeekSeat, person: number | null): HeldSeat[] {
  return held.map((one): HeldSeat => {
    if (one.seat.key === seat.key) return { seat, person, isFixed: person !== null };
    const leaves = person !== null && one.person === person && overlaps(one.seat, seat);
    return leaves ? { ...one, person: null, isFixed: false } : one;
  });
}

/** What a change breaks, in sentences, the gates first; empty where nothing does. */
export function breaksOf(
  { told, facts }: RosterBasis,
  before: readonly HeldSeat[],
  after: readonly HeldSeat[],
  { seat, person }: { seat: WeekSeat; person: number | null },
): string[] {
  const { problem } = told;
  const name = (who: number) => problem.people[who]?.name ?? '';
  const title = (task: number) => `“${problem.tasks[task]?.name ?? ''}”`;
  const words: string[] = [];
  const stopped = (held: readonly HeldSeat[]) => {
    const named = held.flatMap((one) =>
      one.person === null ? [] : [{ seat: one.seat, person: one.person }],
    );
    const stops = facts.stoppedInCompany(named);
    return new Map(
      named.map((one, i) => [`${one.seat.key} ${one.person}`, { ...one, stops: stops[i] ?? [] }]),
    );
  };
  const [was, is] = [stopped(before), stopped(after)];
  if (person !== null) {
    const own = [
      ...new Set([...facts.stops(person, seat), ...(is.get(`${seat.key} ${person}`)?.stops ?? [])]),
    ];
    for (const stop of own) words.push(`${name(person)} on ${title(seat.task)}: ${stop}`);
    if (own.length === 0 && !isAble(told, person, seat))
      words.push(
        `${name(person)} has not said they can be there for all of it, or the plan’s rules don’t let them do it.`,
      );
  }
  for (const [key, one] of is) {
    if (one.seat.key === seat.key) continue;
    const known = new Set(was.get(key)?.stops);
    const fresh = one.stops.filter((stop) => !known.has(stop));
    if (fresh.length > 0) words.push(`${name(one.person)} on ${title(one.seat.task)}: ${fresh.join(' ')}`);
  }
  before.forEach((one, i) => {
    const then = after[i];
    if (one.person === null || then?.person !== null) return;
    const { skillId } = asksOf(problem, one.seat);
    const skill = problem.skills.find(({ id }) => id === skillId)?.name;
    words.push(
      `${title(one.seat.task)} is left without ${skill === undefined ? `${name(one.person)} as a hand` : `${name(one.person)} for ${inSentence(skill)}`}.`,
    );
  });
  const holder = before.find((one) => one.seat.key === seat.key)?.person ?? null;
  if (holder !== null && holder !== person) {
    if (facts.taken.get(seat.key) === holder) words.push(`${name(holder)} has said yes to this place.`);
    const stays = after.filter((one) => one.person === holder && one.seat.turnout === seat.turnout);
    words.push(
      stays.length > 0
        ? `${name(holder)} then has only ${listOf([...new Set(stays.map((one) => title(one.seat.task)))])}.`
        : `${name(holder)} then has no place at this turnout.`,
    );
  }
  return words;
}

/** Odds of a piece of work that a change moves, in words. */
export interface OddsChange {
  turnoutId: string;
  taskId: string;
  before: string | null;
  after: string | null;
}

/** What a change at one turnout does to its odds. */
export function oddsChanges(
  basis: RosterBasis,
  turnout: number,
  before: readonly HeldSeat[],
  after: ToldRoster,
): OddsChange[] {
  const turnoutId = basis.told.problem.turnouts[turnout]?.id ?? '';
  // Who is taken off by this very change was not off before it.
  const seated = seatedIds(before, turnout);
  const off = new Set([...(after.off.get(turnout) ?? [])].filter((person) => !seated.has(person)));
  const then = standOf({ ...basis, turnouts: [turnout] }, before, new Map([[turnout, off]]));
  const was = then.odds.get(turnout);
  const is = after.odds.get(turnout);
  const tasks = new Set([...(was?.keys() ?? []), ...(is?.keys() ?? [])]);
  return [...tasks].flatMap((taskId): OddsChange[] => {
    const change = { before: was?.get(taskId) ?? null, after: is?.get(taskId) ?? null };
    return change.before === change.after ? [] : [{ turnoutId, taskId, ...change }];
  });
}
