import type { Dice } from './dice.js';

/** Most links into or out of a task, and tasks that begin or end the whole. */
const MOST = 3;
/** Networks drawn before one with too few links is taken. */
const TRIES = 40;

/**
 * Which task waits for which, by network complexity: links without redundant ones, over tasks, the two marks at start
 * and end counted in both. Tasks 0 and n - 1 are these marks.
 *
 * Every task first gets one forerunner and one follower, then links are drawn at random as long as they say something
 * new and leave what is there not redundant. A network that got stuck with too few is drawn anew; of many that all
 * did, the fullest counts.
 */
export function drawLinks(n: number, complexity: number, dice: Dice): [number, number][] {
  const wanted = Math.round(complexity * n);
  let best: [number, number][] = [];
  for (let k = 0; k < TRIES && best.length < wanted; k++) {
    const links = tryLinks(n, wanted, dice);
    if (links.length > best.length) best = links;
  }
  return best;
}

function tryLinks(n: number, wanted: number, dice: Dice): [number, number][] {
  const reach = Array.from({ length: n }, () => new Uint8Array(n));
  const into = new Int32Array(n);
  const out = new Int32Array(n);
  const links: [number, number][] = [];
  const add = (a: number, b: number) => {
    links.push([a, b]);
    out[a]++;
    into[b]++;
    for (let i = 0; i < n; i++)
      if (i === a || reach[i][a]) for (let j = 0; j < n; j++) if (j === b || reach[b][j]) reach[i][j] = 1;
  };
  const saysSomething = (a: number, b: number) =>
    !reach[a][b] && !links.some(([i, j]) => (i === a || reach[i][a] === 1) && (j === b || reach[b][j] === 1));
  const isFree = (a: number, b: number) => out[a] < MOST && into[b] < MOST && saysSomething(a, b);

  for (let b = 1; b <= MOST; b++) add(0, b);
  for (let a = n - 1 - MOST; a < n - 1; a++) add(a, n - 1);
  for (let b = MOST + 1; b < n - 1; b++) {
    const before = range(1, Math.min(b, n - 1 - MOST)).filter((a) => isFree(a, b));
    add(before.length > 0 ? dice.one(before) : 0, b);
  }
  for (let a = 1; a < n - 1 - MOST; a++) {
    if (out[a] > 0) continue;
    const after = range(Math.max(a, MOST) + 1, n - 1).filter((b) => isFree(a, b));
    add(a, after.length > 0 ? dice.one(after) : n - 1);
  }
  for (let miss = 0; links.length < wanted && miss < 50 * n;) {
    const a = dice.whole(1, n - 2 - MOST);
    const b = dice.whole(Math.max(a, MOST) + 1, n - 2);
    if (isFree(a, b)) add(a, b);
    else miss++;
  }
  return links;
}

/** From `first` up to `end`, without it. */
export function range(first: number, end: number): number[] {
  return Array.from({ length: Math.max(0, end - first) }, (_, k) => first + k);
}
