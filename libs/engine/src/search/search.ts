import { NEVER } from '../calendar.js';
import { Hands } from '../generate/place.js';
import type { Network } from '../network.js';
import type { Bench } from './bench.js';
import { Random } from './random.js';

/** First plans: one list a rule, each drawn forward and justified. */
export function firstPlans(bench: Bench, net: Network): void {
  const { n } = bench.model;
  const list = new Int32Array(n);
  for (const keys of [net.lateStart, net.lateFinish, bench.warm, net.earlyStart]) {
    if (bench.over && bench.best !== null) return;
    if (keys === null) continue;
    bench.orderer.byKey(keys, list);
    draw(bench, list, null);
  }
  if (bench.best === null) {
    const hands = new Uint8Array(n).fill(Hands.Lean);
    bench.orderer.byKey(net.lateStart, list);
    draw(bench, list, hands);
  }
}

/** Draws a list forward and justifies it for as long as that gains. */
export function draw(bench: Bench, list: Int32Array, hands: Uint8Array | null): number {
  let ready = bench.try(list, hands);
  for (let turn = 0; turn < 4 && ready !== NEVER && !bench.over; turn++) {
    const next = bench.justify(list, hands, ready);
    if (next >= ready) break;
    ready = next;
  }
  return ready;
}

/** Goes on from the first plans: lists near the best one and lists near the rules, taken in turn. */
export function searchOn(bench: Bench, net: Network, seed: number, tries = Infinity): void {
  const random = new Random(seed);
  const { n } = bench.model;
  const keys = new Float64Array(n);
  const list = new Int32Array(n);
  const hands = new Uint8Array(n);
  const span = Math.max(1, net.ready - bench.model.now);
  for (let k = 0; k < tries && !(bench.over && (bench.best !== null || tries === Infinity)); k++) {
    const { best } = bench;
    const fromBest = best !== null && random.share() < 0.8;
    const width = span * (fromBest ? 0.02 + 0.15 * random.share() ** 2 : 0.1);
    for (let i = 0; i < n; i++) {
      const base = fromBest ? best.start[i] : net.lateStart[i];
      keys[i] = base + (random.share() < 0.5 ? 0 : width * (random.share() - 0.5));
    }
    hands.set(best?.hands ?? hands);
    if (random.share() < 0.5) {
      for (let k = random.below(4); k >= 0 && n > 0; k--) hands[random.below(n)] = random.below(3);
    }
    bench.orderer.byKey(keys, list);
    draw(bench, list, hands);
  }
}
