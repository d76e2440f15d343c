import type { Model } from '../model/model.js';
import { emptySet, has, put, size } from '../model/people.js';
import { CrewChooser } from './crew.js';

/**
 * Sets of people that a task can be kept to, by need, the first being everybody. Waiting for one person rather than
 * taking whoever is free first can be the better plan, and a pass that takes whoever is free would never find it.
 *
 * Where one seat is all that a task needs, the choices are the people who can take it, one by one; else everybody but
 * the scarcest, as long as a crew is left.
 */
export function choicesOf(model: Model): Int32Array[][] {
  const { words, count } = model.crowd;
  const chooser = new CrewChooser(model);
  const everybody = new Int32Array(words).fill(-1);
  return model.needs.map((need) => {
    const choices: Int32Array[] = [everybody];
    if (need.lean === 1 && need.seats.length === 1) {
      const { able } = need.seats[0];
      for (let r = 0; r < count && choices.length < MOST; r++) {
        if (!has(able, r)) continue;
        const one = emptySet(words);
        put(one, r);
        choices.push(one);
      }
      return choices;
    }
    for (let top = count - 1; top > 0 && choices.length < MOST; top--) {
      const set = emptySet(words);
      for (let r = 0; r < top; r++) if (has(need.hands, r)) put(set, r);
      if (!chooser.mayDo(need, set, 0)) break;
      if (size(set) < size(choices[choices.length - 1])) choices.push(set);
    }
    return choices;
  });
}

/** A choice is kept in one byte. */
const MOST = 255;
