import fc from 'fast-check';
import { STARTING_BOOK } from '../methods/book/book.js';
import { type Expansion, expandScope } from '../methods/expand.js';
import { buildHull } from '../model/build-hull.js';
import { SCHOONER } from '../model/halibut-schooner.fixture.js';
import { openingLimits } from '../openings/limits.js';
import { type OpeningSettings } from '../openings/settings.js';
import { DEMO_CHOICES, DEMO_SURVEY } from './demo-survey.fixture.js';
import { overridesNeeded } from './overrides-needed.js';
import { scopeOfSurvey } from './scope-of-survey.js';
import { type Survey } from './survey.js';

const hull = buildHull(SCHOONER);
const word = { by: 'Odalys Brenn', reason: 'ribbands and braces stand, read daily' };
const SIX: OpeningSettings = { strakeRun: { value: { atMost: 6 }, ribbandsStand: true, ...word } };

/** One task at a time, closing before opening: the most careful crew there is. Answers with what is left undone. */
function oneAtATime(
  { tasks, links }: Expansion,
  settings: OpeningSettings,
): { left: string[]; mostOpen: number } {
  const limits = openingLimits(
    hull,
    tasks.flatMap((task) => task.opens),
    settings,
  );
  const left = new Map(tasks.map((task) => [task.ref, task]));
  const open = new Set<string>();
  let mostOpen = 0;
  for (;;) {
    const ready = [...left.values()].filter((task) => {
      if (links.some((link) => link.after === task.ref && left.has(link.before))) return false;
      return task.opens.every((element) =>
        limits
          .filter((limit) => limit.elements.includes(element))
          .every((limit) => limit.elements.filter((one) => open.has(one)).length < limit.atMost),
      );
    });
    const next =
      ready.find((task) => task.closes.length > 0) ??
      ready.find((task) => task.opens.length === 0) ??
      ready.at(0);
    if (next === undefined) return { left: [...left.keys()], mostOpen };
    left.delete(next.ref);
    next.opens.forEach((element) => open.add(element));
    mostOpen = Math.max(mostOpen, open.size);
    next.closes.forEach((element) => open.delete(element));
  }
}

describe('limits that a scope cannot keep', () => {
  const { elements } = scopeOfSurvey(hull, DEMO_SURVEY, DEMO_CHOICES);

  it('of the demo are those on strake runs: six strakes are open at each frame', () => {
    const needed = overridesNeeded(hull, elements);
    expect(new Set(needed.map(({ limit }) => limit.rule))).toEqual(new Set(['strakeRun']));
    expect(needed.flatMap(({ frames }) => frames)).toContain('frame 12 starboard');
  });

  it('are gone with the shipwright’s written word', () => {
    expect(overridesNeeded(hull, elements, SIX)).toEqual([]);
  });

  it('stop the yard without it, and with it everything is done and closed', () => {
    const expansion = expandScope(STARTING_BOOK, elements, 300);
    expect(oneAtATime(expansion, {}).left).toContain('vessel-launch');
    expect(oneAtATime(expansion, SIX)).toMatchObject({ left: [] });
  });

  it('of a floor timber are both garboards at once, which lie over its two halves', () => {
    const floor: Survey = {
      frames: [{ frames: [16, 16], side: 'starboard', pieces: [0], finding: 'renew', cause: null }],
      planks: [],
      causes: [],
    };
    const scope = scopeOfSurvey(hull, floor, DEMO_CHOICES);
    const rules = overridesNeeded(hull, scope.elements, SIX).map(({ limit }) => limit.rule);
    expect(new Set(rules)).toEqual(new Set(['bothSides', 'keepClosed']));
    const frame = scope.elements.find((one) => one.kind === 'frame')!;
    expect(frame.alsoOpens).toEqual(['frame-16-port']);
    expect(frame.counts.pieces).toBe(1);
  });

  it('are all that can stop a careful crew: with none, any survey of frames can be done', () => {
    const finding = fc.record({
      first: fc.integer({ min: 2, max: 40 }),
      more: fc.integer({ min: 0, max: 3 }),
      side: fc.constantFrom('port' as const, 'starboard' as const),
      pieces: fc.constantFrom<number[]>([3], [4], [3, 4], [2, 3, 4]),
    });
    let done = 0;
    fc.assert(
      fc.property(fc.array(finding, { minLength: 1, maxLength: 2 }), (findings) => {
        const survey: Survey = {
          frames: findings.map(({ first, more, ...rest }) => ({
            ...rest,
            frames: [first, first + more],
            finding: 'renew',
            cause: null,
          })),
          planks: [],
          causes: [],
        };
        const scope = scopeOfSurvey(hull, survey, { ...DEMO_CHOICES, inspectionStrake: undefined });
        if (overridesNeeded(hull, scope.elements, SIX).length > 0) return;
        expect(oneAtATime(expandScope(STARTING_BOOK, scope.elements, 300), SIX).left).toEqual([]);
        done += 1;
      }),
      { numRuns: 10 },
    );
    expect(done).toBeGreaterThan(0);
  });
});
