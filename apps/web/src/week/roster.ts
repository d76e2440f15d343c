/** How a posted turnout reads: its places gathered by task, people before open places, what changed said in words. */

export interface PlaceLike {
  id: string;
  state: 'POSTED' | 'TAKEN' | 'LEFT';
  task: { id: string };
  hand?: { volunteerId: string; name: string } | null;
  skill?: { name: string } | null;
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

/** "needs 1 sawyer and 2 hands", or null when every place is filled. */
export function sayOpen(open: PlaceLike[]): string | null {
  if (!open.length) return null;
  const wanted = new Map<string, number>();
  for (const place of open)
    wanted.set(place.skill?.name ?? 'hand', (wanted.get(place.skill?.name ?? 'hand') ?? 0) + 1);
  const words = [...wanted].map(([name, many]) => `${many} ${name === 'hand' && many > 1 ? 'hands' : name}`);
  return `needs ${words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`}`;
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
