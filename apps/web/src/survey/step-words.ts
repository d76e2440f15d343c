import type { Method, Step, StepAfter } from './survey-document.js';

/** What can be counted on a piece of her, as methods name it. */
export const countNames = [
  'pieces',
  'nails',
  'new nails',
  'bolts',
  'stubs',
  'plugs',
  'stuck fastenings',
  'chocks',
  'new joints',
  'scarfs',
  'bungs',
  'saved nails',
  'seam feet',
  'square feet',
  'planks',
  'frames',
  'renewed planks',
  'long strake runs',
] as const;

export const hazardNames = [
  'lead',
  'eye',
  'dust',
  'noise',
  'strain',
  'lifting',
  'crush',
  'fall',
  'hot-work',
  'machine',
  'burn',
  'chemical',
  'enclosed-space',
  'wet',
  'drowning',
  'fatigue',
  'electric',
] as const;

export const eyesNames = ['surveyor', 'insurer', 'funder', 'inspector', 'sling'] as const;
export const supportNames = ['shore', 'brace', 'ribband'] as const;
export const levelNames = ['learning', 'works alone', 'teaches', 'may say so'] as const;

export const kindWords: Record<Step['kind'], string> = {
  work: 'work: the more hands, the sooner',
  fixed: 'a set length, whatever the crew',
  elapsed: 'time that passes by itself',
  hold: 'a say-so',
  launch: 'the launch',
};

export const relationWords: Record<string, string> = {
  'finish-to-start': 'starts after the end of',
  'start-to-start': 'starts after the start of',
  'finish-to-finish': 'ends after the end of',
  'start-to-finish': 'ends after the start of',
};

/** Of what other piece a step is, whose end or start is waited for; and what kind of method has such steps. */
export const touchingWords: Record<string, { says: string; kind: string | null }> = {
  itself: { says: 'on the piece itself', kind: null },
  'planks over it': { says: 'on each plank over it', kind: 'plank' },
  'ceiling over it': { says: 'on each ceiling plank over it', kind: 'ceiling' },
  'frames under it': { says: 'on each frame under it', kind: 'frame' },
  'strake below': { says: 'on the strake below', kind: 'plank' },
  'strake above': { says: 'on the strake above', kind: 'plank' },
  'all planks': { says: 'on all planks', kind: 'plank' },
  'all frames': { says: 'on all frames', kind: 'frame' },
  'all ceiling': { says: 'on all the ceiling', kind: 'ceiling' },
  'all causes': { says: 'of all causes', kind: 'cause' },
  vessel: { says: 'of the vessel as a whole', kind: 'vessel' },
};

/** Steps that can be waited for, of the same method or of the methods for what touches it. */
export function stepsToWaitFor(methods: Method[], own: Method, of: string): Step[] {
  const kind = touchingWords[of]?.kind ?? null;
  const holders = kind === null ? [own] : methods.filter((method) => method.for === kind);
  const steps = holders.flatMap((method) => method.steps);
  return steps.filter((step, at) => steps.findIndex((other) => other.key === step.key) === at);
}

/** "starts after the end of lift the plank off, on the strake below, 1 turnout later". */
export function sayAfter(methods: Method[], own: Method, { step, of, relation, lag }: StepAfter): string {
  const title = stepsToWaitFor(methods, own, of).find((one) => one.key === step)?.title ?? step;
  const where = of === 'itself' ? '' : `, ${touchingWords[of]?.says ?? of}`;
  const later =
    'turnouts' in lag
      ? lag.turnouts
        ? `, ${lag.turnouts} ${lag.turnouts === 1 ? 'turnout' : 'turnouts'} later`
        : ''
      : lag.elapsedMinutes
        ? `, ${Math.round(lag.elapsedMinutes / 6) / 10} hours later`
        : '';
  return `${relationWords[relation] ?? relation} “${title}”${where}${later}`;
}

/** A key of its own for what was called so: its words joined by hyphens, with a number where it is taken. */
export function keyFor(title: string, taken: readonly string[]): string {
  const base =
    title
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 60) || 'step';
  for (let number = 1; ; number += 1) {
    const key = number === 1 ? base : `${base}-${number}`;
    if (!taken.includes(key)) return key;
  }
}

/** A step with nothing said of it yet. */
export const newStep = (key: string, title: string): Step => ({
  key,
  title,
  kind: 'work',
  estimate: { by: 'work', personMinutes: { low: 60, likely: 120, high: 240 }, each: null },
  crew: { min: 1, efficient: 2, max: 3 },
  seats: [],
  cards: [],
  leastAge: 18,
  oneGo: false,
  setUpMinutes: 10,
  tools: [],
  opens: false,
  closes: false,
  hazards: [],
  cautions: [],
  noticeDays: null,
  onlyWith: null,
  after: [],
});
