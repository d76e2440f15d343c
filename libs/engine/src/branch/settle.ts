import type { Rules } from './kernel.js';

/**
 * Draws every piece of an answer as early as the others leave room, heights kept: decisions may have put some later
 * than needed. `values` by variable, changed in place.
 */
export function settle(rules: Rules, values: Int32Array): void {
  const profiles = rules.resources.map(({ taken }) =>
    Int32Array.from({ length: rules.span }, (_, t) => taken[t]),
  );
  const heightOf = (use: Rules['pieces'][number]['uses'][number]) =>
    use.variable === undefined ? use.height : values[use.variable];
  const load = (piece: Rules['pieces'][number], sign: 1 | -1) => {
    const from = values[piece.start];
    for (const use of piece.uses) {
      const height = sign * heightOf(use);
      if (height === 0) continue;
      const profile = profiles[use.resource];
      for (let t = from; t < from + piece.length; t++) profile[t] += height;
    }
  };
  const comesAfter: { before: number; gap: number }[][] = rules.low.map(() => []);
  for (const { before, after, gap } of rules.differences) comesAfter[after].push({ before, gap });
  const order = [...rules.pieces].sort((a, b) => values[a.start] - values[b.start] || a.start - b.start);
  for (const piece of order) load(piece, 1);
  for (let moved = true; moved;) {
    moved = false;
    for (const piece of order) {
      const x = piece.start;
      const earliest = comesAfter[x].reduce(
        (low, { before, gap }) => Math.max(low, values[before] + gap),
        rules.low[x],
      );
      if (earliest >= values[x]) continue;
      load(piece, -1);
      let start = earliest;
      for (let t = start; t < start + piece.length && start < values[x]; t++) {
        const fits = piece.uses.every(
          (use) => profiles[use.resource][t] + heightOf(use) <= rules.resources[use.resource].limit,
        );
        if (!fits) start = t + 1;
      }
      if (start < values[x]) {
        values[x] = start;
        moved = true;
      }
      load(piece, 1);
    }
  }
}
