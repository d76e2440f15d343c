import type { NamedHand } from '@ribband/crew';
import { GateBook, jobsOf } from '@ribband/roster';
import type { EntityManager } from 'typeorm';
import type { ToldPlan } from '../plans/told-plan.js';
import { DayWords } from '../words/days.js';
import { rosterChanges, type RosterChange } from './roster-changes.js';
import type { ToldRoster } from './roster/told-roster.js';
import type { WeekDraftEntity } from './roster/week-draft.entity.js';
import { proposeWeek, type TurnoutProposal, type WeekRecords } from './week-book.js';
import type { ReadWeek } from './week-records.js';

/** A week as it is proposed, with what the page shows beside it. */
export interface Week {
  /** Its Monday. */
  weekOf: string;
  told: ToldPlan | null;
  turnouts: TurnoutProposal[];
  isPosted: boolean;
  draft: WeekDraftEntity | null;
  /** What has changed since it was posted, the newest first. */
  changes: RosterChange[];
  /** Who could be put somewhere: those who are expected at one of its turnouts at least. */
  crewIds: string[];
  /** What the coordinator should know of the whole week. */
  notices: string[];
  names: ReadonlyMap<string, NamedHand>;
  /** What to read before starting, by task. */
  cautions: ReadonlyMap<string, string[]>;
}

/** Tells a week: the proposal or draft, what is posted and what has changed since, and what to read before starting. */
export async function tellWeek(
  manager: EntityManager,
  organisationId: string,
  {
    weekOf,
    read,
    roster,
    draft,
    lost,
  }: {
    weekOf: string;
    read: ReadWeek;
    roster: ToldRoster | null;
    draft: WeekDraftEntity | null;
    /** How many places that were kept are not to be filled any more. */
    lost: number;
  },
): Promise<Week> {
  const records = { ...read, roster };
  const proposals = proposeWeek(records);
  await addClosedGates(manager, organisationId, records, proposals);
  const jobs = await jobsOf(manager, organisationId, [
    ...proposals.flatMap(({ work }) => work.map(({ taskId }) => taskId)),
    ...read.places.map((place) => place.taskId),
  ]);
  const names = new Map(read.hands.map(({ id, name }) => [id, { volunteerId: id, name }]));
  const isPosted = read.places.some((place) => place.state !== 'left');
  const days = new Map(read.turnouts.map((turnout) => [turnout.id, turnout.heldOn]));
  const words = new DayWords('UTC', weekOf.slice(0, 4));
  return {
    weekOf,
    told: read.told,
    turnouts: proposals,
    isPosted,
    draft,
    changes: isPosted
      ? await rosterChanges(manager, organisationId, {
          weekOf,
          turnoutIds: new Set(days.keys()),
          places: read.places,
          nameOf: (id) => names.get(id)?.name ?? '',
          titleOf: (id) => jobs.get(id)?.task.title ?? '',
          dayOf: (id) => words.weekday(days.get(id) ?? weekOf),
        })
      : [],
    crewIds: crewOf(read.told, proposals),
    notices:
      lost > 0
        ? [
            `The week has changed: ${lost === 1 ? 'one place that was kept is' : `${lost} places that were kept are`} not to be filled any more.`,
          ]
        : [],
    names,
    cautions: new Map([...jobs].map(([id, job]) => [id, job.cautions.map(({ words: each }) => each)])),
  };
}

/** Who is expected at one of the turnouts, in the order of the crew. */
function crewOf(told: ToldPlan | null, proposals: readonly TurnoutProposal[]): string[] {
  const ids = new Set(proposals.map(({ turnout }) => turnout.id));
  const turnouts = new Set(told?.problem.turnouts.flatMap(({ id }, w) => (ids.has(id) ? [w] : [])));
  return (told?.problem.people ?? []).flatMap((person) =>
    person.stays.some((stay) => turnouts.has(stay.turnout)) ? [person.id] : [],
  );
}

/** Says of places that stand which gate is closed by now: a card that lapsed, a teacher who left. */
async function addClosedGates(
  manager: EntityManager,
  organisationId: string,
  records: WeekRecords,
  proposals: TurnoutProposal[],
): Promise<void> {
  const standing = records.places.filter((place) => place.state !== 'left' && place.volunteerId !== null);
  const book = await GateBook.read(manager, organisationId, {
    volunteerIds: standing.flatMap((place) => place.volunteerId ?? []),
    taskIds: standing.map((place) => place.taskId),
    days: new Map(records.turnouts.map((turnout) => [turnout.id, turnout.heldOn])),
  });
  for (const place of standing) {
    const stops = book
      .findings(place.volunteerId ?? '', place, standing)
      .filter((finding) => finding.weight === 'stop');
    const proposal = proposals.find(({ turnout }) => turnout.id === place.turnoutId);
    const name = book.hand(place.volunteerId ?? '')?.name ?? '';
    const job = book.job(place.taskId);
    const title = job?.task.title ?? '';
    if (job?.closed) proposal?.notices.push(`${name} has a place, but ${job.closed}`);
    for (const finding of stops) proposal?.notices.push(`${name} on “${title}”: ${finding.words}`);
  }
}
