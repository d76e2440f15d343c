import type { Person, Turnout } from '@ribband/engine';
import type { Dice } from './dice.js';
import { range } from './links.js';
import { TRADES } from './yard.js';

/** People who come on some days of the week, now and then late or not at all, with a few trades each. */
export function drawPeople(count: number, turnouts: Turnout[], dice: Dice): Person[] {
  const people = range(0, count).map((p) => drawPerson(p, turnouts, dice));
  // A trade that nobody has stops the yard: the first two of each get it, who come as often as anybody.
  TRADES.forEach((_, s) => {
    for (const p of [2 * s, 2 * s + 1])
      people[p % count].levels[s] = Math.max(3, people[p % count].levels[s]);
  });
  return people;
}

function drawPerson(p: number, turnouts: Turnout[], dice: Dice): Person {
  const days = [0, 1, 2].filter((day) => dice.chance(day === 1 ? 0.8 : 0.4));
  if (days.length === 0) days.push(1);
  const away = dice.whole(0, 40);
  const stays = turnouts.flatMap(({ start, end }, turnout) => {
    const week = Math.floor(turnout / 3);
    // Three weeks away a year.
    if (!days.includes(turnout % 3) || Math.floor(((week + away) % 52) / 3) === 0) return [];
    const late = dice.chance(0.15) ? 60 * dice.whole(1, 2) : 0;
    const early = dice.chance(0.15) ? 60 * dice.whole(1, 2) : 0;
    return [{ turnout, from: start + late, to: end - early, showUp: 0.8 }];
  });
  return {
    id: `person-${p}`,
    name: `person ${p}`,
    levels: TRADES.map(({ share }) => (dice.chance(share) ? dice.whole(2, 3) : dice.chance(0.2) ? 1 : 0)),
    stays,
    clearances: dice.chance(0.4) || p < 6 ? [{ clearance: 0, until: null }] : [],
    minutesAWeek: dice.chance(0.2) ? 480 : null,
    minutesATurnout: dice.chance(0.1) ? 240 : null,
  };
}
