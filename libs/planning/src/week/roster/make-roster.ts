import { assignRoster, type Candidate, type RosterProblem, type Seated } from '@ribband/engine';
import type { ToldPlan } from '../../plans/told-plan.js';
import { berthsOf, byUrgency, minutesOf, type SeatsInARow } from './berths.js';
import { candidatesFor, isAble, type RareSkill, rareSkillsAt, type RosterFacts } from './candidates.js';
import { oneAtATime, type WeekSeat } from './seats-of-week.js';
import { weekCaps } from './week-caps.js';

/** A seat with who holds it, if anybody does. */
export interface HeldSeat {
  seat: WeekSeat;
  person: number | null;
  /** Whether it was said who, by the coordinator or by themselves. */
  isFixed: boolean;
}

export interface WeekRoster {
  /** In the order of the seats given. */
  held: HeldSeat[];
  berths: SeatsInARow[];
  problem: RosterProblem;
  /** By berth; undefined where nobody is left for it. */
  seated: ReadonlyMap<number, Seated>;
}

/** Times that the roster is made again with one fewer at each turnout whom company keeps from their seat, at most. */
const mostRoundsOneByOne = 12;

/** Times that it is made again, at most; after those above without all whom company keeps from their seats. */
const mostRounds = 24;

/**
 * Who holds which seat of a week: the roster of least cost over the plan's berths. A berth that nobody can take whole is
 * taken apart and all is made again; so it is where who else is there keeps somebody from a seat that the plan did not
 * give them. Whom the plan itself has there stays, and the gates say so when the week is posted.
 * @param fixed people by the key of the seat, as the coordinator has put them
 */
export function makeRoster(
  told: ToldPlan,
  seats: readonly WeekSeat[],
  facts: RosterFacts,
  fixed: ReadonlyMap<string, number>,
): WeekRoster {
  // What the coordinator has settled goes before what people have said yes to.
  const all = oneAtATime(seats, [...fixed, ...facts.taken]);
  const may = (person: number, seat: WeekSeat) =>
    isAble(told, person, seat) && facts.stops(person, seat).length === 0;
  const candidates = candidateBook(told, facts);
  const split = new Set<string>();
  const barred = new Set<string>();
  for (let round = 1; ; round++) {
    const berths = byUrgency(told, berthsOf(seats, all, may, split));
    const problem = problemOf(told, berths, candidates, barred);
    const { seated, unfilled } = assignRoster(problem);
    const apart = unfilled.flatMap((b) => {
      const row = berths[b];
      return row && row.seats.length > 1 && row.fixed === null ? [firstPlanned(row, seats)] : [];
    });
    const held = seated.flatMap(({ berth, person }) =>
      (berths[berth]?.seats ?? []).map((seat) => ({ seat, person, berth })),
    );
    const stopped = facts.stoppedInCompany(held);
    const kept = held.filter(({ person, berth }, i) => {
      const row = berths[berth];
      return (stopped[i]?.length ?? 0) > 0 && row?.fixed === null && row.planned !== person;
    });
    const bar = (round > mostRoundsOneByOne ? kept : latestAtEach(kept)).map(
      ({ seat, person }) => `${seat.key} ${person}`,
    );
    if (round < mostRounds && apart.length + bar.length > 0) {
      for (const key of apart) split.add(key);
      for (const key of bar) barred.add(key);
      continue;
    }
    const holder = new Map(held.map(({ seat, person }) => [seat.key, person]));
    return {
      held: seats.map((seat) => ({
        seat,
        person: holder.get(seat.key) ?? null,
        isFixed: holder.has(seat.key) && all.get(seat.key) === holder.get(seat.key),
      })),
      berths,
      problem,
      seated: new Map(seated.map((one) => [one.berth, one])),
    };
  }
}

/**
 * Of each turnout's seats those of the berth that is filled last: without it, company may keep nobody else there from
 * theirs.
 */
function latestAtEach<Held extends { seat: WeekSeat; berth: number }>(held: readonly Held[]): Held[] {
  const latest = new Map<number, number>();
  for (const { seat, berth } of held)
    latest.set(seat.turnout, Math.max(berth, latest.get(seat.turnout) ?? 0));
  return held.filter(({ seat, berth }) => latest.get(seat.turnout) === berth);
}

/** The key by which `berthsOf` knows the group of a berth: its first seat in the order of all seats. */
function firstPlanned(row: SeatsInARow, seats: readonly WeekSeat[]): string {
  const keys = new Set(row.seats.map(({ key }) => key));
  return seats.find(({ key }) => keys.has(key))?.key ?? '';
}

/** Who may take a berth, each berth asked about once. */
function candidateBook(told: ToldPlan, facts: RosterFacts): (row: SeatsInARow) => Candidate[] {
  const known = new Map<string, Candidate[]>();
  const rare = new Map<number, RareSkill[]>();
  return (row) => {
    const scarce = rare.get(row.turnout) ?? rareSkillsAt(told, row.turnout);
    rare.set(row.turnout, scarce);
    const key = `${String(row.planned)}: ${row.seats.map((seat) => seat.key).join()}`;
    const found = known.get(key) ?? candidatesFor(told, row, facts, scarce);
    known.set(key, found);
    return found;
  };
}

function problemOf(
  told: ToldPlan,
  berths: readonly SeatsInARow[],
  candidates: (row: SeatsInARow) => Candidate[],
  barred: ReadonlySet<string>,
): RosterProblem {
  const minutes = berths.map(minutesOf);
  const rows = berths.map((row, rank) => ({
    turnout: row.turnout,
    rank,
    may: candidates(row).filter(
      ({ person }) => !row.seats.some((seat) => barred.has(`${seat.key} ${person}`)),
    ),
    fixed: row.fixed,
  }));
  const caps = told.problem.people.map(({ minutesAWeek }, person) =>
    minutesAWeek === null
      ? null
      : weekCaps(told, berths, person, minutesAWeek, (b) =>
          (rows[b]?.may ?? []).some((one) => one.person === person),
        ),
  );
  return {
    people: caps.map((one) => ({ quotas: one?.quotas ?? [] })),
    berths: rows.map((row, b) => ({
      ...row,
      may: row.may.filter(
        ({ person }) => (minutes[b] ?? 0) <= (caps[person]?.longest.get(row.turnout) ?? Infinity),
      ),
    })),
  };
}
