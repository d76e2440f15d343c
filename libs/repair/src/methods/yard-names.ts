import { type Expansion, HullRefusal } from '@ribband/hull';
import type { MethodsDocument } from './methods-shape.js';

export interface Named {
  ref: string;
  name: string;
}

/** What the yard has a name for. */
export interface YardNames {
  skills: readonly Named[];
  tools: readonly Named[];
  cards: readonly Named[];
}

const inWords = { skills: 'skill', tools: 'tool', cards: 'kind of card' } as const;

/**
 * The same tasks with the yard's refs in place of the book's words. A word is the yard's when `names` says so, or as
 * a ref, or as a name, whichever case it is written in.
 * @throws HullRefusal that names every word which the yard does not know
 */
export function inYardNames(
  expansion: Expansion,
  names: MethodsDocument['names'],
  yard: YardNames,
): Expansion {
  const missing = new Set<string>();
  const reader = (kind: keyof YardNames): ((word: string) => string) => {
    const refs = new Map(yard[kind].map(({ ref, name }) => [name.toLowerCase(), ref]));
    for (const { ref } of yard[kind]) refs.set(ref, ref);
    return (word) => {
      const found = refs.get(names[kind][word] ?? word.toLowerCase());
      if (found === undefined) missing.add(`${inWords[kind]} "${word}"`);
      return found ?? word;
    };
  };
  const [skill, tool, card] = [reader('skills'), reader('tools'), reader('cards')];
  const tasks = expansion.tasks.map((task) => ({
    ...task,
    seats: task.seats.map((seat) => ({ ...seat, skill: skill(seat.skill), cards: seat.cards.map(card) })),
    cards: task.cards.map(card),
    tools: task.tools.map((use) => ({ ...use, tool: tool(use.tool) })),
  }));
  if (missing.size > 0)
    throw new HullRefusal(
      'methods.names',
      `the yard knows no ${[...missing].sort().join(', no ')}`,
      'a skill, tool or card of that name at the yard, or the yard’s word for it in names',
    );
  return { ...expansion, tasks };
}
