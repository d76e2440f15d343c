import type { CrewHand } from '@ribband/crew';
import { cardCountsOn } from '@ribband/crew';
import type { PlaceEntity, TurnoutEntity } from '@ribband/roster';
import type { ToldPlan } from '../plans/told-plan.js';
import { oddsOfCrews, seatedAt } from './crews.js';
import { roomFor, stalledAt } from './gaps.js';
import { stayAt } from './presence.js';
import { workAt } from './stretches.js';
import { whyThere } from './why.js';

/** One turnout of a week as it is proposed, by ids of the records. */
export interface TurnoutProposal {
  turnout: TurnoutEntity;
  work: WorkProposal[];
  /** Who said they come and has nothing to do. */
  unplacedIds: string[];
  notices: string[];
  /** How likely each piece of work has its crew, in words, by task. */
  odds: ReadonlyMap<string, string>;
}

export interface WorkProposal {
  taskId: string;
  startsAt: number;
  endsAt: number;
  crew: { volunteerId: string; skillId: string | null; why: string }[];
  gaps: string[];
}

/** What a week is told from. */
export interface WeekRecords {
  told: ToldPlan | null;
  turnouts: TurnoutEntity[];
  places: PlaceEntity[];
  hands: CrewHand[];
  /** Kinds of cards that count as first aid. */
  firstAidIds: ReadonlySet<string>;
  /** Tasks that were dropped from the scope. */
  droppedIds: ReadonlySet<string>;
}

/** A week's turnouts with the plan's work, who is on it and why, what is missing, and who has nothing to do. */
export function proposeWeek(records: WeekRecords): TurnoutProposal[] {
  const { told, turnouts } = records;
  const index = new Map(told?.problem.turnouts.map(({ id }, w) => [id, w]));
  return turnouts.map((turnout): TurnoutProposal => {
    const w = index.get(turnout.id);
    if (!told || w === undefined || turnout.cancelledAt !== null)
      return { turnout, work: [], unplacedIds: [], notices: [], odds: new Map() };
    const expected = told.problem.people
      .filter((person) => stayAt(person, w) !== undefined)
      .map(({ id }) => id);
    const work = proposeTurnout(records, told, w);
    const placed = new Set([
      ...work.flatMap(({ crew }) => crew.map((hand) => hand.volunteerId)),
      ...records.places
        .filter((place) => place.turnoutId === turnout.id && place.state !== 'left')
        .flatMap((place) => place.volunteerId ?? []),
    ]);
    return {
      turnout,
      work,
      unplacedIds: expected.filter((id) => !placed.has(id)),
      notices: noticesFor(records, turnout, expected),
      odds: oddsFor(records, told, turnout, work),
    };
  });
}

/** Of those who are posted; of those whom the plan names, where nobody is. */
function oddsFor(
  records: WeekRecords,
  told: ToldPlan,
  turnout: TurnoutEntity,
  work: readonly WorkProposal[],
): ReadonlyMap<string, string> {
  const at = seatedAt(told, turnout.id, records.places, records.hands);
  if (!at) return new Map();
  if (at.seated.length > 0) return oddsOfCrews(told, at);
  const seated = work.flatMap(({ taskId, crew, startsAt, endsAt }) =>
    crew.map(({ volunteerId }) => ({ volunteerId, taskId, minutes: (endsAt - startsAt) / 60_000 })),
  );
  const placed = new Set(seated.map(({ volunteerId }) => volunteerId));
  return oddsOfCrews(told, { ...at, seated, standingBy: at.standingBy.filter((id) => !placed.has(id)) });
}

function proposeTurnout(records: WeekRecords, told: ToldPlan, turnout: number): WorkProposal[] {
  const { problem } = told;
  const planned = workAt(told, new Set([turnout])).map((work): WorkProposal => ({
    taskId: told.taskId(work.task),
    startsAt: told.instant(work.start),
    endsAt: told.instant(work.end),
    crew: onceEach(
      work.stretches.map((stretch) => {
        const seat = stretch.seat === null ? undefined : problem.tasks[stretch.task]?.seats[stretch.seat];
        return {
          volunteerId: problem.people[stretch.person]?.id ?? '',
          skillId: seat ? realSkill(problem.skills[seat.skill]?.id) : null,
          why: whyThere(told, work, stretch),
        };
      }),
    ),
    gaps: roomFor(told, work),
  }));
  const span = problem.turnouts[turnout];
  const stalled = stalledAt(told, turnout).map(({ task, gaps }): WorkProposal => ({
    taskId: told.taskId(task),
    startsAt: told.instant(span?.start ?? 0),
    endsAt: told.instant(span?.end ?? 0),
    crew: [],
    gaps,
  }));
  return [...planned, ...stalled].filter((work) => !records.droppedIds.has(work.taskId));
}

/** The seat that keeps an adult beside someone under 18 asks for no skill of the yard's. */
export function realSkill(skillId: string | undefined): string | null {
  return skillId === undefined || skillId === 'adult' ? null : skillId;
}

/** Somebody whose crew changes around them is named once. */
function onceEach(crew: WorkProposal['crew']): WorkProposal['crew'] {
  const seen = new Set<string>();
  return crew.filter(({ volunteerId, skillId }) => {
    const key = `${volunteerId} ${skillId ?? ''}`;
    const isNew = !seen.has(key);
    seen.add(key);
    return isNew;
  });
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
