import { lowerFirst } from '../words/amounts.js';

/** How a posted turnout reads: its places gathered by task, people before open places, what changed said in words. */

export interface PlaceLike {
  id: string;
  state: 'POSTED' | 'TAKEN' | 'LEFT';
  task: { id: string };
  hand?: { volunteerId: string; name: string } | null;
  skill?: { name: string } | null;
  /** Beside whom its holder learns, over and above the crew. */
  teacher?: { name: string } | null;
}

export interface Standing<Place extends PlaceLike> {
  task: Place['task'];
  filled: Place[];
  open: Place[];
  left: Place[];
}

export function byTask<Place extends PlaceLike>(places: Place[]): Standing<Place>[] {
  const standings = new Map<string, Standing<Place>>();
  for (const place of places) {
    const standing: Standing<Place> = standings.get(place.task.id) ?? {
      task: place.task,
      filled: [],
      open: [],
      left: [],
    };
    standings.set(place.task.id, standing);
    if (place.state === 'LEFT') standing.left.push(place);
    else if (place.hand) standing.filled.push(place);
    else standing.open.push(place);
  }
  return [...standings.values()];
}

/** Whether a gap stops the work ("needs 1 sawyer") or only leaves room ("room for 2 more hands"). */
export function isMissing(gap: string): boolean {
  return gap.startsWith('needs');
}

/**
 * What a posted piece of work lacks, in words: an unfilled seat stops it, and so do fewer hands than it takes; beyond
 * that an open place is only room.
 */
export function sayOpen<Place extends PlaceLike>(
  { open, filled }: Standing<Place>,
  crewMin: number,
): string[] {
  const seats = new Map<string, number>();
  for (const { skill } of open) if (skill) seats.set(skill.name, (seats.get(skill.name) ?? 0) + 1);
  const hands = open.filter((place) => !place.skill).length;
  const crew = filled.filter(({ teacher }) => !teacher).length;
  const short = Math.min(hands, Math.max(0, crewMin - crew - (open.length - hands)));
  return [
    ...[...seats].map(([skill, many]) => `needs ${many} for ${lowerFirst(skill)}`),
    ...(short ? [`needs ${sayHands(short)}`] : []),
    ...(hands > short ? [`room for ${sayHands(hands - short)}`] : []),
  ];
}

function sayHands(many: number): string {
  return many === 1 ? '1 more hand' : `${many} more hands`;
}

/** What somebody who was asked has answered, or that they have not. */
export function sayAnswer(place: PlaceLike): string {
  switch (place.state) {
    case 'POSTED':
      return 'asked';
    case 'TAKEN':
      return 'comes';
    case 'LEFT':
      return 'can’t come';
  }
}

/** How likely a piece of work has its crew, in words, where that is known. */
export function oddsOf(
  { odds }: { odds: readonly { taskId: string; words: string }[] },
  taskId: string,
): string | undefined {
  return odds.find((one) => one.taskId === taskId)?.words;
}
