import type { CrewHand } from '@ribband/crew';
import { type Asked, crewOdds, type CrewWanted } from '@ribband/engine';
import type { PlaceEntity } from '@ribband/roster';
import type { ToldPlan } from '../plans/told-plan.js';
import { mayFill, mayHelp, stayAt } from './presence.js';

/** Who is seated on what at one turnout, and who comes without a seat. */
export interface SeatedTurnout {
  /** Index of the turnout in the plan's problem. */
  turnout: number;
  seated: readonly { volunteerId: string; taskId: string; minutes: number }[];
  /** Ids of those who stand by. */
  standingBy: readonly string[];
  /** Chance that somebody comes, 0..1. */
  chanceOf: (volunteerId: string) => number;
}

/** A posted turnout as the odds look at it; null where the plan doesn't know it. */
export function seatedAt(
  told: ToldPlan,
  turnoutId: string,
  places: readonly PlaceEntity[],
  hands: readonly CrewHand[],
): SeatedTurnout | null {
  const turnout = told.problem.turnouts.findIndex(({ id }) => id === turnoutId);
  if (turnout < 0) return null;
  const here = places.filter((place) => place.turnoutId === turnoutId && place.state !== 'left');
  const seated = here.flatMap(({ volunteerId, taskId, startsAt, endsAt }) =>
    volunteerId === null ? [] : [{ volunteerId, taskId, minutes: (endsAt - startsAt) / 60_000 }],
  );
  const standingBy = told.problem.people
    .filter((person) => stayAt(person, turnout) && !seated.some((one) => one.volunteerId === person.id))
    .map(({ id }) => id);
  const chances = new Map(hands.map((hand) => [hand.id, hand.showUpChance]));
  return { turnout, seated, standingBy, chanceOf: (id) => chances.get(id) ?? 0 };
}

/**
 * How likely each piece of work at a turnout has its crew, in words, by task. Where it all hangs on one person nothing
 * is said in figures: that would be a figure about that person.
 */
export function oddsOfCrews(told: ToldPlan, at: SeatedTurnout): Map<string, string> {
  const crews = crewsAt(told, at);
  return new Map(
    crews.tasks.map((task, work): [string, string] => {
      const able = crews.people.filter(({ seated, standsIn }) =>
        [...seated, ...standsIn].some((could) => could.work === work),
      );
      const words =
        able.length < 2
          ? 'Hangs on one person.'
          : `${sayOdds(crewOdds(crews.works, crews.people, work))} that its crew comes.`;
      return [told.taskId(task), words];
    }),
  );
}

/** Whose absence would lose most work at a turnout; null where nobody's would lose any. */
export function hingeOf(told: ToldPlan, at: SeatedTurnout): string | null {
  const crews = crewsAt(told, at);
  const minutes = crews.tasks.map((task) =>
    at.seated.reduce((sum, one) => (one.taskId === told.taskId(task) ? sum + one.minutes : sum), 0),
  );
  const kept = (i: number, chance: number) => {
    const people = crews.people.map((person, k) => (k === i ? { ...person, chance } : person));
    return minutes.reduce((sum, worth, work) => sum + worth * crewOdds(crews.works, people, work), 0);
  };
  const losses = crews.people.map(({ seated }, i) => (seated.length > 0 ? kept(i, 1) - kept(i, 0) : 0));
  const most = losses.indexOf(Math.max(0, ...losses));
  return (losses[most] ?? 0) > 1e-9 ? (crews.ids[most] ?? null) : null;
}

/** Tasks that could not start even if everybody came who is seated or stands by. */
export function withoutCrew(told: ToldPlan, at: SeatedTurnout): string[] {
  const crews = crewsAt(told, { ...at, chanceOf: () => 1 });
  return crews.tasks.flatMap((task, work) =>
    crewOdds(crews.works, crews.people, work) < 0.5 ? [told.taskId(task)] : [],
  );
}

/** "9 in 10": whole tenths are all that such figures are worth. */
export function sayOdds(odds: number): string {
  if (odds > 0.95) return 'Better than 9 in 10';
  if (odds < 0.05) return 'Less than 1 in 10';
  return `${String(Math.round(odds * 10))} in 10`;
}

interface Crews {
  /** Indices of the tasks, one entry a piece of work. */
  tasks: number[];
  works: CrewWanted[];
  ids: string[];
  people: Asked[];
}

function crewsAt(told: ToldPlan, { turnout, seated, standingBy, chanceOf }: SeatedTurnout): Crews {
  const { problem } = told;
  const tasks = [...new Set(seated.flatMap(({ taskId }) => told.indexOf(taskId) ?? []))];
  const asked = tasks.map((task) => ({ task, record: problem.tasks[task] }));
  const works = asked.map(({ record }): CrewWanted => ({
    seats: record?.seats.map((seat) => seat.count) ?? [],
    least: record?.crew.min ?? 0,
  }));
  const ids = [...new Set([...seated.map(({ volunteerId }) => volunteerId), ...standingBy])];
  const people = ids.map((id): Asked => {
    const person = problem.people.find((one) => one.id === id);
    const could = asked.map(({ task, record }, work) => ({
      work,
      isSeated: seated.some((one) => one.volunteerId === id && one.taskId === told.taskId(task)),
      mayHelp: person !== undefined && mayHelp(problem, person, task, turnout),
      seats: (record?.seats ?? []).flatMap((seat, k) =>
        person && mayFill(problem, person, { task, seat, turnout }) ? [k] : [],
      ),
    }));
    const on = could.filter(({ isSeated }) => isSeated);
    return {
      chance: chanceOf(id),
      seated: on,
      standsIn: on.length > 0 ? [] : could.filter((one) => one.mayHelp),
    };
  });
  return { tasks, works, ids, people };
}
