/** Seconds that have gone by since some moment. */
export type Clock = () => number;

export const wallSeconds: Clock = () => performance.now() / 1000;

/** Seconds that this process has computed, on all its threads: true also where others use the machine. */
export const cpuSeconds: Clock = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};

/** `clock`, looked at on every so many calls only: asking for computing time costs a microsecond. */
export function seldom(clock: Clock, every = 16): Clock {
  let left = 0;
  let told = 0;
  return () => {
    if (left-- > 0) return told;
    left = every - 1;
    return (told = clock());
  };
}
