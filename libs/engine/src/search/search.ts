import { NEVER } from '../calendar.js';
import { Hands } from '../generate/place.js';
import type { Network } from '../network.js';
import type { Bench } from './bench.js';
import { DeadlineSearch } from './deadline-search.js';
import { canLineUp } from './lineup.js';
import { Neighbourhood } from './neighbourhood.js';
import { Population } from './population.js';
import { Random } from './random.js';

/** Members of the first population; each restart has half as many again. */
const FIRST_SIZE = 24;
/**
 * How far a first member strays from the rule, as a share of the critical path: so far that the rule hardly shows.
 * Members near to the rule start shorter, yet are so much alike that crossing them soon leads nowhere.
 */
const ASTRAY = 4;
/** Generations without a better plan after which a population is given up. */
const PATIENCE = 20;
/** Passes without a better plan that search by deadline may spend, for each of the population's before it. */
const DEADLINE_SHARE = 10;
/** Neighbours tried without a better plan before the search goes back to the best one. */
const ROAM = 1500;

/** First plans: one list a rule, each drawn forward and justified; stops at the first plan where `quick`. */
export function firstPlans(bench: Bench, net: Network, quick: boolean): void {
  const { n } = bench.model;
  const list = new Int32Array(n);
  const hands = new Uint8Array(n);
  const { warm } = bench;
  for (const keys of [warm?.keys, net.lateStart, net.lateFinish, net.earlyStart]) {
    if (bench.best !== null && (quick || bench.isOver())) return;
    if (keys === undefined) continue;
    if (keys === warm?.keys) hands.set(warm.hands);
    else hands.fill(0);
    bench.orderer.byKey(keys, list);
    if (quick) bench.try(list, hands);
    else draw(bench, list, hands);
  }
  if (bench.best === null) draw(bench, list, hands.fill(Hands.Lean));
}

/** Draws a list forward and justifies it for as long as that gains. */
function draw(bench: Bench, list: Int32Array, hands: Uint8Array): void {
  let ready = bench.try(list, hands);
  for (let turn = 0; turn < 4 && ready !== NEVER && !bench.isOver(); turn++) {
    const next = bench.justify(list, hands, ready);
    if (next >= ready) break;
    ready = next;
  }
}

/** Where no rule gave a plan: lists and crews at random, until one comes through or so many were tried. */
export function anyPlan(bench: Bench, net: Network, seed: number, tries: number): void {
  const random = new Random(seed);
  const { n } = bench.model;
  const keys = new Float64Array(n);
  const list = new Int32Array(n);
  const hands = new Uint8Array(n);
  const span = Math.max(1, net.ready - bench.model.now);
  for (let k = 0; k < tries && bench.best === null; k++) {
    for (let i = 0; i < n; i++) {
      keys[i] = net.lateStart[i] + span * random.share() * random.share();
      hands[i] = random.below(3);
    }
    bench.orderer.byKey(keys, list);
    bench.try(list, hands);
  }
}

/**
 * Goes on from the first plans until the budget is spent. Nothing here depends on the budget, so that a search that
 * was cut short can be replayed by its count of passes.
 */
export function searchOn(bench: Bench, net: Network, seed: number): void {
  if (bench.model.n === 0) return;
  const random = new Random(seed);
  if (bench.twoSided) evolve(bench, net, random);
  else roam(bench, net, random);
}

/** Population search with restarts, between them search by deadline where plans are rows of tasks. */
function evolve(bench: Bench, net: Network, random: Random): void {
  const { n, now } = bench.model;
  const byDeadline = canLineUp(bench.model) ? new DeadlineSearch(bench, random) : null;
  const span = Math.max(1, net.ready - now);
  for (let size = FIRST_SIZE; !bench.isOver(); size = Math.ceil(size * 1.5)) {
    const population = new Population(bench, random, size);
    population.start((member, keys) => {
      const width = member === 0 ? 0 : ASTRAY * span;
      for (let i = 0; i < n; i++) keys[i] = net.lateFinish[i] + width * (random.share() - 0.5);
    });
    const before = bench.passes;
    while (!bench.isOver() && population.idle < PATIENCE) if (!population.step()) break;
    byDeadline?.run((bench.passes - before) * DEADLINE_SHARE);
  }
}

/** From neighbour to neighbour, and back to the best plan when that leads nowhere. */
function roam(bench: Bench, net: Network, random: Random): void {
  const { n } = bench.model;
  const tails = Int32Array.from({ length: n }, (_, i) => Math.max(0, net.ready - net.lateFinish[i]));
  const near = new Neighbourhood(bench, random, tails);
  while (!bench.isOver() && bench.best !== null && n > 0) {
    near.settle(bench.best);
    const { guests } = bench;
    while (!bench.isOver() && near.idle < ROAM && guests === bench.guests) near.step();
  }
}
