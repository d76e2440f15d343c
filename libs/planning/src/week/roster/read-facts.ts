import {
  GateBook,
  pastWork,
  type PlaceEntity,
  placesDuring,
  type SeatedAt,
  type SwingHandEntity,
} from '@ribband/roster';
import type { EntityManager } from 'typeorm';
import type { ToldPlan } from '../../plans/told-plan.js';
import type { Lesson, RosterFacts } from './candidates.js';
import { asksOf, type WeekSeat } from './seats-of-week.js';

/** What the records say for a week's roster: the gates, who said yes or no, who did what before. */
export async function readFacts(
  manager: EntityManager,
  organisationId: string,
  told: ToldPlan,
  seats: readonly WeekSeat[],
  {
    places,
    swing,
    days,
    now,
  }: {
    places: readonly PlaceEntity[];
    swing: readonly SwingHandEntity[];
    days: ReadonlyMap<string, string>;
    now: number;
  },
): Promise<RosterFacts> {
  const book = await GateBook.read(manager, organisationId, {
    volunteerIds: told.problem.people.map(({ id }) => id),
    taskIds: seats.map((seat) => told.taskId(seat.task)),
    days,
  });
  const past = await pastWork(manager, organisationId, now);
  const elsewhere = await placesBesides(manager, organisationId, told, seats, days);
  return factsOf(told, seats, { places: [...places, ...elsewhere], swing, book, past });
}

/** What people have said yes to at watches and all-hands days while the seats last: the plan knows nothing of it. */
async function placesBesides(
  manager: EntityManager,
  organisationId: string,
  told: ToldPlan,
  seats: readonly WeekSeat[],
  days: ReadonlyMap<string, string>,
): Promise<PlaceEntity[]> {
  if (seats.length === 0) return [];
  const ids = told.problem.people.map(({ id }) => id);
  const places = await placesDuring(manager, organisationId, ids, {
    startsAt: told.instant(Math.min(...seats.map(({ start }) => start))),
    endsAt: told.instant(Math.max(...seats.map(({ end }) => end))),
  });
  return places.filter(({ turnoutId, state }) => !days.has(turnoutId) && state === 'taken');
}

/** A seat as the gates look at it. */
export function seatedAs(told: ToldPlan, seat: WeekSeat, person: number | null): SeatedAt {
  return {
    turnoutId: told.problem.turnouts[seat.turnout]?.id ?? '',
    taskId: told.taskId(seat.task),
    ...asksOf(told.problem, seat),
    volunteerId: person === null ? null : (told.problem.people[person]?.id ?? null),
    startsAt: told.instant(seat.start),
    endsAt: told.instant(seat.end),
  };
}

interface Read {
  places: readonly PlaceEntity[];
  swing: readonly SwingHandEntity[];
  book: Pick<GateBook, 'findings' | 'ownFindings' | 'hand'>;
  past: Awaited<ReturnType<typeof pastWork>>;
}

function factsOf(
  told: ToldPlan,
  seats: readonly WeekSeat[],
  { places, swing, book, past }: Read,
): RosterFacts {
  const { people } = told.problem;
  const id = (person: number) => people[person]?.id ?? '';
  const index = new Map(people.map((one, person) => [one.id, person]));
  // Who learns there has none of the crew's seats.
  const ofCrew = places.filter((place) => place.teacherId === null);
  const yes = ofCrew.filter((place) => place.state === 'taken');
  const taken = matched(told, seats, yes, index);
  const matchedYes = new Set([...taken].map(([key, person]) => `${key} ${person}`));
  const asked = matched(
    told,
    seats.filter((seat) => !taken.has(seat.key)),
    ofCrew.filter((place) => place.state === 'posted'),
    index,
  );
  const gates = new Map<string, string[]>();
  const gatesFor = (person: number, seat: WeekSeat): string[] => {
    const key = `${person} ${seat.turnout} ${seat.task} ${String(seat.seat)}`;
    const found =
      gates.get(key) ??
      book
        .ownFindings(id(person), seatedAs(told, seat, person))
        .flatMap(({ weight, words }) => (weight === 'stop' ? [words] : []));
    gates.set(key, found);
    return found;
  };
  const ofPerson = new Map<string, PlaceEntity[]>();
  for (const place of places) {
    const key = place.volunteerId ?? '';
    ofPerson.set(key, [...(ofPerson.get(key) ?? []), place]);
  }
  const stops = (person: number, seat: WeekSeat): string[] => {
    const own = seatedAs(told, seat, person);
    const theirs = ofPerson.get(id(person)) ?? [];
    const saidNo = (place: PlaceEntity) =>
      place.state === 'left' && place.turnoutId === own.turnoutId && place.taskId === own.taskId;
    if (theirs.some(saidNo)) return ['Has said no to this.'];
    const elsewhere = theirs.some(
      (place) =>
        place.state === 'taken' &&
        (place.taskId !== own.taskId || place.turnoutId !== own.turnoutId || place.teacherId !== null) &&
        place.startsAt < own.endsAt &&
        own.startsAt < place.endsAt,
    );
    if (elsewhere && !matchedYes.has(`${seat.key} ${person}`))
      return ['Has said yes to something else then.'];
    return gatesFor(person, seat);
  };
  return {
    taken,
    lessons: lessonsIn(told, places, index),
    asked,
    stops,
    stoppedInCompany(held) {
      const all = held.map(({ seat, person }) => seatedAs(told, seat, person));
      return all.map((own) =>
        book
          .findings(own.volunteerId ?? '', own, all)
          .flatMap(({ weight, words }) => (weight === 'stop' ? [words] : [])),
      );
    },
    knows(person, task) {
      const those = past.onTask.get(told.taskId(task));
      return those ? those.has(id(person)) : null;
    },
    wouldLearn: (person, skill) =>
      book.hand(id(person))?.wouldLearn.includes(told.problem.skills[skill]?.id ?? '') ?? false,
    standsBy: (person, turnout) =>
      !swing.some(
        (row) =>
          row.leftAt !== null &&
          row.volunteerId === id(person) &&
          row.turnoutId === told.problem.turnouts[turnout]?.id,
      ),
    dullBefore: (person) => past.dullDays.get(id(person)) ?? 0,
  };
}

/** The learners' places among some that are taken. */
function lessonsIn(
  told: ToldPlan,
  places: readonly PlaceEntity[],
  index: ReadonlyMap<string, number>,
): Lesson[] {
  return places.flatMap(
    ({ volunteerId, teacherId, taskId, turnoutId, state, startsAt, endsAt }): Lesson[] => {
      const learner = index.get(volunteerId ?? '');
      const teacher = index.get(teacherId ?? '');
      const task = told.indexOf(taskId);
      const turnout = told.problem.turnouts.findIndex(({ id }) => id === turnoutId);
      const isKnown = learner !== undefined && teacher !== undefined && task !== undefined && turnout >= 0;
      return state === 'taken' && isKnown ? [{ learner, teacher, task, turnout, startsAt, endsAt }] : [];
    },
  );
}

/** Which seat each named place is: the same work and what it asks for, at the same time; of several the plan's own first. */
function matched(
  told: ToldPlan,
  seats: readonly WeekSeat[],
  places: readonly PlaceEntity[],
  index: ReadonlyMap<string, number>,
): Map<string, number> {
  const found = new Map<string, number>();
  for (const place of places) {
    const person = place.volunteerId === null ? undefined : index.get(place.volunteerId);
    if (person === undefined) continue;
    const same = seats.filter((seat) => {
      const one = seatedAs(told, seat, null);
      return (
        !found.has(seat.key) &&
        one.turnoutId === place.turnoutId &&
        one.taskId === place.taskId &&
        one.skillId === place.skillId &&
        one.level === place.level &&
        one.startsAt < place.endsAt &&
        place.startsAt < one.endsAt
      );
    });
    const seat = same.find((one) => one.planned === person) ?? same[0];
    if (seat) found.set(seat.key, person);
  }
  return found;
}
