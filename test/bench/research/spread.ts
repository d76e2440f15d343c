import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Options } from '../answer.js';
import type { Found } from './known.js';
import { measure, type Row } from './measure.js';

/** What a process is asked, and what it says back. */
export interface Order {
  found: Found;
  options: Options;
}
export type Word = { row: Row } | { error: string };

/**
 * Measures every file, `cores` of them at a time, each in a process of its own so that each one's computing time is
 * its own. The rows come in the files' order.
 * @throws Error that names the file which could not be read or solved
 */
export async function measureAll(files: Found[], options: Options, cores: number): Promise<Row[]> {
  if (cores <= 1) return files.map((found) => measure(found, options));
  const rows = new Array<Row>(files.length);
  let next = 0;
  const worker = async () => {
    const child = fork(fileURLToPath(new URL('./measure-process.js', import.meta.url)));
    try {
      while (next < files.length) {
        const k = next++;
        const word = await new Promise<Word>((resolve, reject) => {
          child.once('message', (said: Word) => {
            child.off('exit', ended);
            resolve(said);
          });
          const ended = (code: number | null) => {
            reject(new Error(`${files[k].file}: the process ended with ${String(code)}`));
          };
          child.once('exit', ended);
          child.send({ found: files[k], options } satisfies Order);
        });
        if ('error' in word) throw new Error(`${files[k].file}: ${word.error}`);
        rows[k] = word.row;
      }
    } finally {
      child.kill();
    }
  };
  await Promise.all(Array.from({ length: Math.min(cores, files.length) }, worker));
  return rows;
}
