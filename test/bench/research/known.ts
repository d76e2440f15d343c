import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** What others published for an instance. */
export interface Known {
  bound: number;
  makespan: number;
}

/** Best published values by file name: in each CSV file of the folder the columns after the name are bound and makespan. */
export function knownIn(folder: string): Map<string, Known> {
  const known = new Map<string, Known>();
  for (const name of readdirSync(folder).filter((one) => one.endsWith('.csv'))) {
    const lines = readFileSync(join(folder, name), 'utf8').trim().split(/\r?\n/);
    for (const [k, line] of lines.entries()) {
      if (k === 0) continue;
      const [file, bound, makespan] = line.split(',');
      const values = { bound: Number(bound), makespan: Number(makespan) };
      if (!(values.bound >= 0 && values.makespan >= values.bound))
        throw new Error(`${name} line ${k + 1}: must be a file, a bound and a makespan, is "${line}"`);
      known.set(file, values);
    }
  }
  return known;
}

export interface Found {
  file: string;
  name: string;
  known: Known | null;
}

/** The instance files of the folders and of those right inside them, every `each`-th of a folder. */
export function instancesIn(folders: string[], each: number): Found[] {
  return folders.flatMap((folder) => {
    const inside = readdirSync(folder, { withFileTypes: true });
    const names = inside.map(({ name }) => name).filter((name) => /\.(sm|dzn|def)$/.test(name));
    const known = names.length > 0 ? knownIn(folder) : new Map<string, Known>();
    const own = names
      .sort()
      .filter((_, k) => k % each === 0)
      .map((name) => ({ file: join(folder, name), name, known: known.get(name) ?? null }));
    const below = inside.flatMap((one) => (one.isDirectory() ? [join(folder, one.name)] : []));
    return [...own, ...instancesIn(below, each)];
  });
}
