import { existsSync, readFileSync } from 'node:fs';

/** Seconds that have gone by since some moment. */
export type Clock = () => number;

export const wallSeconds: Clock = () => performance.now() / 1000;

/** Seconds that this process has computed, on all its threads: true also where others use the machine. */
export const cpuSeconds: Clock = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};

/** Seconds that one thread of this process has computed: Linux tells; elsewhere those of the whole process. */
export function threadSeconds(thread = 'thread-self'): Clock {
  const file =
    thread === 'thread-self' ? '/proc/thread-self/schedstat' : `/proc/self/task/${thread}/schedstat`;
  if (!existsSync(file)) return cpuSeconds;
  return () => Number(readFileSync(file, 'utf8').split(' ')[0]) / 1e9;
}

/** `clock`, looked at on every so many calls only: asking for computing time takes some microseconds. */
export function seldom(clock: Clock, every = 16): Clock {
  let left = 0;
  let told = 0;
  return () => {
    if (left-- > 0) return told;
    left = every - 1;
    return (told = clock());
  };
}
