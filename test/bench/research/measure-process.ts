import { measure } from './measure.js';
import type { Order, Word } from './spread.js';

/** Started by `spread.ts`: measures the file that it is sent, as often as it is sent one. */
process.on('message', ({ found, options }: Order) => {
  let word: Word;
  try {
    word = { row: measure(found, options) };
  } catch (error) {
    word = { error: (error as Error).message };
  }
  process.send?.(word);
});
