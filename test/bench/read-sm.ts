import { BadFile, refuseCircles, wholeOf, type ToolInstance } from './instance.js';

/** Reads a single-mode instance of the project scheduling library (Kolisch and Sprecher 1996). */
export function readSm(text: string): ToolInstance {
  const lines = text.split(/\r?\n/);
  const words = (k: number) => {
    if (k >= lines.length) throw new BadFile(lines.length, 'the file ends too soon');
    return lines[k].trim().split(/\s+/);
  };
  const find = (title: string): number => {
    const at = lines.findIndex((line) => line.startsWith(title));
    if (at < 0) throw new BadFile(lines.length, `no section "${title}"`);
    return at;
  };
  const counted = (what: RegExp, name: string): number => {
    const at = lines.findIndex((line) => what.test(line));
    if (at < 0) throw new BadFile(1, `no line "${name}"`);
    return wholeOf(/:\s*(\S+)/.exec(lines[at])?.[1], at + 1, name);
  };
  const jobs = counted(/^jobs/, 'jobs');
  const resources = counted(/^\s*-\s*renewable/, 'renewable');
  if (jobs === 0) throw new BadFile(1, 'there must be at least one job');

  const order: [number, number][] = [];
  const links = find('PRECEDENCE RELATIONS');
  for (let i = 0; i < jobs; i++) {
    const at = links + 2 + i;
    const [job, modes, count, ...after] = words(at);
    if (wholeOf(job, at + 1, 'job number') !== i + 1)
      throw new BadFile(at + 1, `must be job ${i + 1}, is ${job}`);
    if (wholeOf(modes, at + 1, 'number of modes') !== 1)
      throw new BadFile(at + 1, 'only one mode a job is read');
    if (wholeOf(count, at + 1, 'number of successors') !== after.length) {
      throw new BadFile(at + 1, `says ${count} successors and lists ${after.length}`);
    }
    for (const word of after) {
      const j = wholeOf(word, at + 1, 'successor');
      if (j < 1 || j > jobs) throw new BadFile(at + 1, `successor ${j} is not one of ${jobs} jobs`);
      order.push([i, j - 1]);
    }
  }
  refuseCircles(order, jobs, links + 1);

  const availability = find('RESOURCEAVAILABILITIES');
  const capacity = words(availability + 2).map((word) => wholeOf(word, availability + 3, 'capacity'));
  if (capacity.length < resources) throw new BadFile(availability + 3, `must list ${resources} capacities`);

  const durations: number[] = [];
  const takes: number[][] = [];
  const requests = find('REQUESTS/DURATIONS');
  for (let i = 0; i < jobs; i++) {
    const at = requests + 3 + i;
    const [job, , duration, ...units] = words(at);
    if (wholeOf(job, at + 1, 'job number') !== i + 1)
      throw new BadFile(at + 1, `must be job ${i + 1}, is ${job}`);
    durations.push(wholeOf(duration, at + 1, 'duration'));
    if (units.length < resources)
      throw new BadFile(at + 1, `must list ${resources} requests, lists ${units.length}`);
    const row = units.slice(0, resources).map((word) => wholeOf(word, at + 1, 'request'));
    const over = row.findIndex((count, k) => count > capacity[k]);
    if (over >= 0)
      throw new BadFile(at + 1, `takes ${row[over]} of resource ${over + 1}, there are ${capacity[over]}`);
    takes.push(row);
  }
  return { format: 'sm', durations, order, capacity: capacity.slice(0, resources), takes };
}
