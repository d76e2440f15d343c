import { type Asked, crewOdds, type CrewWanted } from '@ribband/engine';
import type { PlaceEntity } from '@ribband/roster';
import type { Coming } from '../beliefs/coming.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { mayFill, mayHelp } from './presence.js';

/** Who is seated on what at one turnout, and who comes without a seat. */
export interface SeatedTurnout extends Coming {
  /** Index of the turnout in the plan's problem. */
  turnout: number;
  seated: readonly { volunteerId: string; taskId: string; minutes: number }[];
  /** Ids of those who stand by; who is seated as well leaves their work where they are needed more. */
  standingBy: readonly string[];
}

/**
 * A posted turnout as the odds look at it; null where the plan doesn't know it. Who said they come and was not asked to
 * stand by counts for nothing, as in the roster that was proposed.
 */
export function seatedAt(
  told: ToldPlan,
  turnoutId: string,
  {
    places,
    standingBy,
    coming,
  }: { places: readonly PlaceEntity[]; standingBy: readonly string[]; coming: Coming },
): SeatedTurnout | null {
  const turnout = told.problem.turnouts.findIndex(({ id }) => id === turnoutId);
  if (turnout < 0) return null;
  // A second hand is over and above the crew.
  const here = places.filter(
    (place) => place.turnoutId === turnoutId && place.state !== 'left' && place.teacherId === null,
  );
  const seated = here.flatMap(({ volunteerId, taskId, startsAt, endsAt }) =>
    volunteerId === null ? [] : [{ volunteerId, taskId, minutes: (endsAt - startsAt) / 60_000 }],
  );
  return { turnout, seated, standingBy, ...coming };
}

/**
 * How likely each piece of work at a turnout has its crew, in words, by task. Where it all hangs on one person nothing
 * is said in figures: that would be a figure about that person.
 */
export function oddsOfCrews(told: ToldPlan, at: SeatedTurnout): Map<string, string> {
  const crews = crewsAt(told, at);
  return new Map(
    crews.tasks.map((task, work): [string, string] => {
      if (!isWholeIfAllCome(crews, work)) return [told.taskId(task), 'No crew, whoever comes.'];
      const words = hangsOnOne(crews, work)
        ? 'Hangs on one person.'
        : `${sayOdds(crewOdds(crews.works, crews.people, work, at.together))} that its crew comes.`;
      return [told.taskId(task), words];
    }),
  );
}

/**
 * Whether the odds of a piece of work would be those of one person: nobody else may do it, or nobody else's coming is in
 * doubt and changes them. One sawyer and two hands who may lend a hand where none is needed, say.
 */
export function hangsOnOne({ works, people }: Pick<Crews, 'works' | 'people'>, work: number): boolean {
  let able = 0;
  let matter = 0;
  for (const [i, { seated, standsIn, chance: own }] of people.entries()) {
    if (![...seated, ...standsIn].some((could) => could.work === work)) continue;
    able++;
    if (own <= 0 || own >= 1) continue;
    const odds = (chance: number) =>
      crewOdds(
        works,
        people.map((person, k) => (k === i ? { ...person, chance } : person)),
        work,
      );
    if (odds(1) - odds(0) > 1e-9) matter++;
    if (matter > 1) return false;
  }
  return able < 2 || matter === 1;
}

/** Whose absence would lose most work at a turnout; null where nobody's would lose any. */
export function hingeOf(told: ToldPlan, at: SeatedTurnout): string | null {
  const crews = crewsAt(told, at);
  const minutes = crews.tasks.map((task) =>
    at.seated.reduce((sum, one) => (one.taskId === told.taskId(task) ? sum + one.minutes : sum), 0),
  );
  const kept = (i: number, work: number, chance: number) => {
    const people = crews.people.map((person, k) => (k === i ? { ...person, chance } : person));
    return (minutes[work] ?? 0) * crewOdds(crews.works, people, work, at.together);
  };
  // Who is seated counts for the work that they are seated on, and for no other.
  const losses = crews.people.map(({ seated }, i) =>
    seated.reduce((sum, { work }) => sum + kept(i, work, 1) - kept(i, work, 0), 0),
  );
  const most = losses.indexOf(Math.max(0, ...losses));
  return (losses[most] ?? 0) > 1e-9 ? (crews.ids[most] ?? null) : null;
}

/** Tasks that could not start even if everybody came who is seated or stands by. */
export function withoutCrew(told: ToldPlan, at: SeatedTurnout): string[] {
  const crews = crewsAt(told, at);
  return crews.tasks.flatMap((task, work) => (isWholeIfAllCome(crews, work) ? [] : [told.taskId(task)]));
}

function isWholeIfAllCome({ works, people }: Pick<Crews, 'works' | 'people'>, work: number): boolean {
  const all = people.map((person) => ({ ...person, chance: 1 }));
  return crewOdds(works, all, work) > 0.5;
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

/** A turnout's work and people as the engine asks for them. */
export function crewsAt(told: ToldPlan, { turnout, seated, standingBy, chanceOf }: SeatedTurnout): Crews {
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
    const swings = on.length === 0 || standingBy.includes(id);
    return {
      chance: chanceOf(id),
      seated: swings ? [] : on,
      standsIn: swings ? could.filter((one) => one.mayHelp) : [],
    };
  });
  return { tasks, works, ids, people };
}
