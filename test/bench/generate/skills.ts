import type { SkillInstance } from '../instance.js';
import { Dice } from './dice.js';
import { drawLinks, range } from './links.js';

/** Multi-skill projects after the shape of the published set (Young, Feydy and Schutt 2017), drawn by our own rules. */
export interface SkillWish {
  /** Without the two marks at start and end. */
  tasks: number;
  skills: number;
  people: number;
  complexity: number;
  /** Chance that a person has a skill, 0..1. */
  mastery: number;
  seed: number;
}

/** Each task asks for up to four people over up to three skills who can all be there at once. */
export function skillInstance({
  tasks,
  skills,
  people,
  complexity,
  mastery,
  seed,
}: SkillWish): SkillInstance {
  const dice = new Dice(seed);
  const n = tasks + 2;
  const order = drawLinks(n, complexity, dice);
  const isMark = (i: number) => i === 0 || i === n - 1;
  const durations = range(0, n).map((i) => (isMark(i) ? 0 : dice.whole(1, 10)));
  const can = range(0, people).map(() => range(0, skills).map(() => dice.chance(mastery)));
  // Everybody can do something and everything can be done by somebody.
  for (const row of can) row[dice.whole(0, skills - 1)] = true;
  for (const s of range(0, skills)) can[dice.whole(0, people - 1)][s] = true;
  const needs = range(0, n).map((i) => {
    const row = new Array<number>(skills).fill(0);
    if (isMark(i)) return row;
    const asked = dice.shuffled(range(0, skills)).slice(0, dice.whole(1, Math.min(3, skills)));
    for (const s of asked) {
      row[s]++;
      if (dice.chance(0.3)) row[s]++;
    }
    while (!canBeFilled(row, can)) row[row.indexOf(Math.max(...row))]--;
    return row;
  });
  return { format: 'dzn', durations, order, needs, can };
}

/** Whether so many people of each skill can be found with nobody in two places (augmenting paths). */
function canBeFilled(row: number[], can: boolean[][]): boolean {
  const places = row.flatMap((count, s) => new Array<number>(count).fill(s));
  const holds = new Array<number>(can.length).fill(-1);
  const seat = (place: number, seen: Set<number>): boolean =>
    can.some((skills, p) => {
      if (!skills[places[place]] || seen.has(p)) return false;
      seen.add(p);
      if (holds[p] >= 0 && !seat(holds[p], seen)) return false;
      holds[p] = place;
      return true;
    });
  return places.every((_, place) => seat(place, new Set()));
}
