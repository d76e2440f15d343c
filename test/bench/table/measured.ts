import { networkPass } from '../figures/network-pass.js';
import { yardFigures } from '../figures/figures.js';
import type { Figure } from '../figures/figure.js';
import { deviations, type Deviation } from '../research/deviation.js';
import { instancesIn, type Found } from '../research/known.js';
import { measureAll } from '../research/spread.js';

type Sets = Record<string, Deviation>;

/** Everything that the engine's table is made from. */
export interface Measured {
  /** With so many schedules each. */
  schedules: { count: number; sets: Sets }[];
  /** With so much computing time each: the sets of `proofSeconds` and those of `levelSeconds` together. */
  inTime: Sets;
  proofSeconds: number;
  levelSeconds: number;
  figures: Figure[];
  /** What is wrong with plans; empty when all are sound. */
  faults: string[];
}

export interface Limits {
  seed: number;
  each: number;
  cores: number;
  /** Computing time a file at most. */
  seconds: number;
}

/** Runs all that the table wants: files by schedules, files by time, and the yards. */
export async function measureForTable(folders: string[], limits: Limits): Promise<Measured> {
  const found = instancesIn(folders, limits.each);
  const faults: string[] = [];
  const proofSeconds = Math.min(10, limits.seconds);
  const levelSeconds = Math.min(20, limits.seconds);
  const run = async (files: Found[], schedules: number | undefined, seconds: number | undefined) => {
    const rows = await measureAll(files, { schedules, seconds, seed: limits.seed }, limits.cores);
    for (const row of rows) for (const says of row.faults) faults.push(`${row.file}: ${says}`);
    process.stderr.write(`${files.length} files, ${schedules ?? `${seconds} s`}\n`);
    return Object.fromEntries(deviations(rows).map((one) => [one.set, one]));
  };
  const ending = (end: string) => found.filter(({ name }) => name.endsWith(end));
  const figures: Figure[] = [];
  yardFigures(
    (figure) => figures.push(figure),
    (says) => faults.push(says),
  );
  figures.push(...networkPass());
  const single = ending('.sm');
  const schedules = [];
  for (const count of [1000, 5000, 50_000])
    schedules.push({ count, sets: await run(single, count, undefined) });
  const inTime = {
    ...(await run(
      single.filter(({ name }) => /^j[36]0/.test(name)),
      undefined,
      proofSeconds,
    )),
    ...(await run(ending('.dzn'), undefined, proofSeconds)),
    // Only those with a known bound have a gap.
    ...(await run(
      ending('.def').filter(({ known }) => known),
      undefined,
      levelSeconds,
    )),
  };
  return { schedules, inTime, proofSeconds, levelSeconds, figures, faults };
}
