import type { CrewHand } from '@ribband/crew';
import { cardCountsOn } from '@ribband/crew';
import type { PlaceEntity, SwingHandEntity, TurnoutEntity } from '@ribband/roster';
import type { Coming } from '../beliefs/coming.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { oddsOfCrews, seatedAt } from './crews.js';
import { stalledAt } from './gaps.js';
import { stayAt } from './presence.js';
import { asksOf, type WeekSeat } from './roster/seats-of-week.js';
import { asksOfSecond, saySecond } from './roster/second-hands.js';
import { gapsOf, type ToldRoster } from './roster/told-roster.js';

/** One turnout of a week as it is proposed, by ids of the records. */
export interface TurnoutProposal {
  turnout: TurnoutEntity;
  work: WorkProposal[];
  /** Who said they come and has nothing to do. */
  unplacedIds: string[];
  notices: string[];
  /** How likely each piece of work has its crew, in words, by task. */
  odds: ReadonlyMap<string, string>;
  /** Who stands by: as it is posted, where it is. */
  swingIds: string[];
}

export interface WorkProposal {
  taskId: string;
  startsAt: number;
  endsAt: number;
  places: PlaceProposal[];
  gaps: string[];
}

/** One person's place on a piece of work, held or open. */
export interface PlaceProposal {
  /** Says which it is, as long as the plan is the same; null for a second hand, whose place goes with the teacher's. */
  key: string | null;
  skillId: string | null;
  level: number;
  startsAt: number;
  endsAt: number;
  volunteerId: string | null;
  why: string | null;
  /** Whether it was said who, by the coordinator or by themselves. */
  isFixed: boolean;
  /** The teacher of a second hand; null for everybody else. */
  besideId: string | null;
}

/** What a week is told from. */
export interface WeekRecords {
  told: ToldPlan | null;
  /** Who has which place; null where there is no plan. */
  roster: ToldRoster | null;
  turnouts: TurnoutEntity[];
  places: PlaceEntity[];
  /** Who was asked to stand by, those who said no among them. */
  swing: SwingHandEntity[];
  hands: CrewHand[];
  coming: Coming;
  /** Kinds of cards that count as first aid. */
  firstAidIds: ReadonlySet<string>;
  /** Tasks that were dropped from the scope. */
  droppedIds: ReadonlySet<string>;
}

/** A week's turnouts with the plan's work, who is on it and why, what is missing, and who has nothing to do. */
export function proposeWeek(records: WeekRecords): TurnoutProposal[] {
  const { told, roster, turnouts } = records;
  const index = new Map(told?.problem.turnouts.map(({ id }, w) => [id, w]));
  return turnouts.map((turnout): TurnoutProposal => {
    const w = index.get(turnout.id);
    if (!told || !roster || w === undefined || turnout.cancelledAt !== null)
      return { turnout, work: [], unplacedIds: [], notices: [], odds: new Map(), swingIds: [] };
    const expected = told.problem.people
      .filter((person) => stayAt(person, w) !== undefined)
      .map(({ id }) => id);
    const work = proposeTurnout(records, told, roster, w);
    const asked = records.swing.flatMap((row) =>
      row.turnoutId === turnout.id && row.leftAt === null ? [row.volunteerId] : [],
    );
    const { places, coming } = records;
    const posted = seatedAt(told, turnout.id, { places, standingBy: asked, coming });
    const isPosted = posted !== null && posted.seated.length > 0;
    const swingIds = isPosted ? asked : (roster.swing.get(w) ?? []);
    const placed = new Set([
      ...(isPosted
        ? posted.seated.map(({ volunteerId }) => volunteerId)
        : work.flatMap(({ places }) => places.flatMap(({ volunteerId }) => volunteerId ?? []))),
      ...swingIds,
    ]);
    return {
      turnout,
      work,
      unplacedIds: expected.filter((id) => !placed.has(id)),
      notices: noticesFor(records, turnout, expected),
      odds: isPosted ? oddsOfCrews(told, posted) : (roster.odds.get(w) ?? new Map()),
      swingIds,
    };
  });
}

function proposeTurnout(
  records: WeekRecords,
  told: ToldPlan,
  roster: ToldRoster,
  turnout: number,
): WorkProposal[] {
  const { problem } = told;
  const held = roster.held.filter(({ seat }) => seat.turnout === turnout);
  const works = [...new Set(held.map(({ seat }) => seat.work))];
  const planned = works.map((work): WorkProposal => {
    const those = held.filter(({ seat }) => seat.work === work);
    return {
      taskId: told.taskId(work.task),
      startsAt: told.instant(work.start),
      endsAt: told.instant(work.end),
      places: [
        ...those.map((one) => placeOf(told, one)),
        ...roster.seconds.filter(({ seat }) => seat.work === work).map((one) => secondPlaceOf(told, one)),
      ],
      gaps: gapsOf(told, those),
    };
  });
  const span = problem.turnouts[turnout];
  const stalled = stalledAt(told, turnout).map(({ task, gaps }): WorkProposal => ({
    taskId: told.taskId(task),
    startsAt: told.instant(span?.start ?? 0),
    endsAt: told.instant(span?.end ?? 0),
    places: [],
    gaps,
  }));
  return [...planned, ...stalled].filter((work) => !records.droppedIds.has(work.taskId));
}

function placeOf(told: ToldPlan, { seat, person, isFixed, why }: ToldRoster['held'][number]): PlaceProposal {
  return {
    key: seat.key,
    ...asksOf(told.problem, seat),
    ...spanOf(told, seat),
    volunteerId: person === null ? null : (told.problem.people[person]?.id ?? null),
    why: why && `${why.there}${why.instead}`,
    isFixed,
    besideId: null,
  };
}

function secondPlaceOf(told: ToldPlan, second: ToldRoster['seconds'][number]): PlaceProposal {
  const { people } = told.problem;
  const teacher = people[second.teacher];
  return {
    key: null,
    ...asksOfSecond(told, second),
    ...spanOf(told, second.seat),
    volunteerId: people[second.learner]?.id ?? null,
    why: saySecond(told, second),
    isFixed: second.isTaken,
    besideId: teacher?.id ?? null,
  };
}

function spanOf(told: ToldPlan, { start, end }: WeekSeat): { startsAt: number; endsAt: number } {
  return { startsAt: told.instant(start), endsAt: told.instant(end) };
}

function noticesFor(records: WeekRecords, turnout: TurnoutEntity, expected: readonly string[]): string[] {
  const notices: string[] = [];
  const there = records.hands.filter((hand) => expected.includes(hand.id));
  if (there.length === 0) return ['Nobody has said they come.'];
  const [only] = there;
  if (there.length === 1 && only)
    notices.push(`Only ${only.name} is expected: nobody works at the yard alone.`);
  const hasFirstAid = there.some((hand) =>
    hand.cards.some((card) => records.firstAidIds.has(card.kindId) && cardCountsOn(card, turnout.heldOn)),
  );
  if (records.firstAidIds.size > 0 && !hasFirstAid)
    notices.push(
      'No first-aid card that day: nobody who is expected holds one that counts. The usual practice is one at every turnout.',
    );
  return notices;
}
