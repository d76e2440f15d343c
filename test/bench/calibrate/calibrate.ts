import { cpuSeconds } from '../clock.js';
import { MOMENTS, trialsOf, type Trial } from './trial.js';

const yards = Number(process.argv[2] ?? 100);
const seed0 = Number(process.argv[3] ?? 1_000_000);
const began = cpuSeconds();
const trials: Trial[] = [];
for (let k = 0; k < yards; k++) trials.push(...trialsOf(seed0 + k, 400));
MOMENTS.forEach((name, moment) => {
  const some = trials.filter((trial) => trial.moment === moment);
  const share = (of: (trial: Trial) => boolean) => ((100 * some.filter(of).length) / some.length).toFixed(1);
  const mean = (of: (trial: Trial) => number) =>
    (some.reduce((sum, one) => sum + of(one), 0) / some.length).toFixed(1);
  console.log(
    name,
    some.length,
    'held',
    share((t) => t.held.p50),
    share((t) => t.held.p80),
    share((t) => t.held.p95),
    'days p50',
    mean((t) => t.days.p50),
    'p80',
    mean((t) => t.days.p80),
    'truly',
    mean((t) => t.days.truly),
    'rank',
    mean((t) => 100 * t.rank),
  );
});
console.log(
  'seconds',
  (cpuSeconds() - began).toFixed(1),
  'a yard',
  ((cpuSeconds() - began) / yards).toFixed(3),
);
