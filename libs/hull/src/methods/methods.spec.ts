import fc from 'fast-check';
import { frameOf } from '../model/ask.js';
import { buildHull } from '../model/build-hull.js';
import { SCHOONER } from '../model/halibut-schooner.fixture.js';
import { HullRefusal } from '../refusal.js';
import { DEMO_CHOICES, DEMO_SURVEY } from '../scope/demo-survey.fixture.js';
import { type Scope, scopeOfSurvey } from '../scope/scope-of-survey.js';
import { type Survey } from '../scope/survey.js';
import { STARTING_BOOK } from './book/book.js';
import { changeMethod, changeRate } from './change.js';
import { checkBook } from './check-book.js';
import { compareExpansions } from './compare.js';
import { type Expansion, expandScope } from './expand.js';
import { type MethodBook } from './method.js';
import { whatChanged } from './what-changed.js';

const hull = buildHull(SCHOONER);
const scopeOf = (survey: Survey): Scope => scopeOfSurvey(hull, survey, DEMO_CHOICES);
const expand = (survey: Survey, book = STARTING_BOOK): Expansion =>
  expandScope(book, scopeOf(survey).elements, 300);
const demo = expand(DEMO_SURVEY);
const task = (ref: string, of = demo): Expansion['tasks'][number] => {
  const found = of.tasks.find((one) => one.ref === ref);
  if (!found) throw new Error(`no task ${ref}`);
  return found;
};
const linkOf = (before: string, after: string, of = demo): Expansion['links'][number] | undefined =>
  of.links.find((one) => one.before === before && one.after === after);

/** Every task can be begun at some time: following links of any relation never comes round to where it began. */
function orderOf({ tasks, links }: Expansion): string[] {
  const left = new Map(tasks.map((one) => [one.ref, 0]));
  for (const link of links) left.set(link.after, left.get(link.after)! + 1);
  const ready = [...left].filter(([, count]) => count === 0).map(([ref]) => ref);
  const order: string[] = [];
  for (let ref = ready.pop(); ref !== undefined; ref = ready.pop()) {
    order.push(ref);
    for (const link of links.filter((one) => one.before === ref)) {
      left.set(link.after, left.get(link.after)! - 1);
      if (left.get(link.after) === 0) ready.push(link.after);
    }
  }
  return order;
}

const countAll = (step: string, kind: string): number =>
  demo.tasks
    .filter((one) => one.step === step && one.ref.startsWith(kind))
    .reduce((sum, one) => sum + (one.estimate?.by === 'count' ? one.estimate.count : 0), 0);

describe('the demo yard’s tasks come from its survey', () => {
  it('with the counts of the survey', () => {
    expect(countAll('pull-nails', 'strake')).toBe(432);
    expect(countAll('pull-nails', 'ceiling')).toBe(112);
    expect(countAll('punch-stubs', 'frame')).toBe(64);
    expect(countAll('bolts-out', 'frame')).toBe(48);
    expect(countAll('plug-holes', 'frame')).toBe(192);
    expect(countAll('drive-nails', 'strake')).toBe(432);
    expect(countAll('bungs-out', 'strake')).toBe(432);
    expect(countAll('bung', 'strake')).toBe(432);
  });

  it('each named once, in words, with a crew that its seats fit', () => {
    expect(new Set(demo.tasks.map((one) => one.ref)).size).toBe(demo.tasks.length);
    for (const one of demo.tasks) {
      expect(one.ref).toMatch(/^[a-z0-9]+(-[a-z0-9]+)+$/);
      expect(one.seats.reduce((sum, seat) => sum + seat.count, 0)).toBeLessThanOrEqual(one.crew.max);
    }
    expect(task('frame-12-starboard-draw-pieces').title).toBe(
      'frame 12 starboard: draw the pieces from their step, cutting the nails behind them',
    );
  });

  it('in an order without circles, linked only among themselves', () => {
    expect(orderOf(demo)).toHaveLength(demo.tasks.length);
  });

  it('opens each element once and closes all that it opens before the launch', () => {
    const opened = demo.tasks.flatMap((one) => one.opens);
    const closed = demo.tasks.flatMap((one) => one.closes);
    expect(new Set(opened).size).toBe(opened.length);
    expect([...closed].sort()).toEqual([...opened].sort());
    const before = new Set<string>();
    const reach = (ref: string): void => {
      for (const link of demo.links.filter((one) => one.after === ref && !before.has(one.before))) {
        before.add(link.before);
        reach(link.before);
      }
    };
    reach('vessel-launch');
    const late = demo.tasks.filter((one) => one.closes.length > 0 && !before.has(one.ref));
    // The inspection strake stays open through the float watch; the rest of the ceiling waits for nothing afloat.
    expect(late.filter((one) => one.element.startsWith('strake') || one.element.startsWith('frame'))).toEqual(
      [],
    );
  });

  it('draws a frame only once its piece is slung, its bolts out and every plank over it off', () => {
    expect(linkOf('frame-12-starboard-slung-and-clear', 'frame-12-starboard-draw-pieces')).toBeDefined();
    expect(linkOf('frame-12-starboard-bolts-out', 'frame-12-starboard-slung-and-clear')).toBeDefined();
    const over = demo.links.filter(
      (one) => one.after === 'frame-12-starboard-slung-and-clear' && one.before.endsWith('lift-off'),
    );
    expect(over.map((one) => one.before.slice(0, 9)).sort()).toEqual(
      ['strake-10', 'strake-11', 'strake-12', 'strake-13', 'strake-14', 'strake-9-'].sort(),
    );
  });

  it('hangs a plank only when every renewed frame under it is passed and the strake below is fastened', () => {
    const plank = 'strake-10-plank-2-starboard'; // frames 9 to 17
    const waits = demo.links
      .filter((one) => [`${plank}-steam-hang`, `${plank}-seen-open`].includes(one.after))
      .map((one) => one.before);
    for (let frame = 12; frame <= 17; frame += 1) expect(waits).toContain(`frame-${frame}-starboard-pass`);
    expect(waits).not.toContain('frame-18-starboard-pass');
    expect(waits).toContain(`${plank}-seen-open`);
    expect(waits).toContain('strake-9-plank-2-starboard-drive-nails');
    expect(waits).toContain('strake-9-plank-3-starboard-drive-nails');
  });

  it('keeps braces until closing up and caulking are done, and ceiling until the frames are seen', () => {
    expect(linkOf('vessel-caulk-ends', 'vessel-strike-braces')).toBeDefined();
    expect(linkOf('vessel-frames-seen', 'ceiling-9-plank-3-starboard-refit')).toBeDefined();
    expect(linkOf('vessel-float-watch', 'ceiling-8-plank-3-starboard-refit')).toBeDefined();
  });

  it('starts pulling nails one turnout after bungs are begun, and says so as a working lag', () => {
    const plank = 'strake-9-plank-2-starboard';
    expect(linkOf(`${plank}-bungs-out`, `${plank}-pull-nails`)).toMatchObject({
      relation: 'start-to-start',
      lagMinutes: 300,
      lagKind: 'working',
    });
  });

  it('warns of lead on every step that digs, scrapes, punches or cuts in old paint', () => {
    for (const step of ['bungs-out', 'pull-nails', 'bolts-out', 'punch-stubs', 'plug-holes', 'caulk'])
      for (const one of demo.tasks.filter((other) => other.step === step))
        expect(one.hazards).toContain('lead');
  });

  it('fits ribbands, since six strakes open at once', () => {
    expect(linkOf('vessel-ribbands', 'strake-9-plank-2-starboard-pull-nails')).toBeDefined();
  });
});

describe('a step with nothing to count', () => {
  it('lays one sister to a frame, however many of its pieces are damaged, and has the rule’s words beside three', () => {
    const on = (frame: number, piece: number): Survey['frames'][number] => ({
      frames: [frame, frame],
      side: 'starboard',
      pieces: [piece],
      finding: 'sister',
      cause: null,
    });
    const beside = (frames: number[]) =>
      scopeOf({ frames: frames.flatMap((frame) => [on(frame, 3), on(frame, 4)]), planks: [], causes: [] });
    const two = beside([30, 31]);
    const sisters = two.elements.filter(({ method }) => method === 'sister-frame');
    expect(sisters.map(({ key, counts }) => [key, counts['pieces']])).toEqual([
      ['frame-30-starboard', 1],
      ['frame-31-starboard', 1],
    ]);
    expect(expandScope(STARTING_BOOK, two.elements, 300).tasks.length).toBeGreaterThan(0);
    expect(two.sisterFaults).toEqual([]);
    expect(beside([30, 31, 32]).sisterFaults.map(({ says }) => says)).toEqual([
      '3 neighbouring frames are to be sistered: sister frames mend isolated damage, not more than 2 neighbouring frames',
    ]);
  });

  it('is left out, and what waited for it waits for what it waited for', () => {
    expect(demo.tasks.some((one) => one.step === 'free-chocks')).toBe(false);
    const chocks = expand({
      ...DEMO_SURVEY,
      frames: [{ ...DEMO_SURVEY.frames[0], counts: { chocks: 2 } }],
    });
    expect(
      linkOf('frame-12-starboard-free-chocks', 'frame-12-starboard-slung-and-clear', chocks),
    ).toBeDefined();
    expect(linkOf('frame-12-starboard-free-chocks', 'frame-12-starboard-slung-and-clear')).toBeUndefined();
    // Without stubs the plugging follows the drawing itself.
    const inward = scopeOfSurvey(hull, DEMO_SURVEY, { ...DEMO_CHOICES, stayOverHead: 0 });
    const bare = expandScope(STARTING_BOOK, inward.elements, 300);
    expect(bare.tasks.some((one) => one.step === 'punch-stubs')).toBe(false);
    expect(linkOf('frame-12-starboard-draw-pieces', 'frame-12-starboard-plug-holes', bare)).toBeDefined();
  });
});

describe('changing one survey line', () => {
  it('keeps every task that it does not touch under its own name', () => {
    const fewer = expand({
      ...DEMO_SURVEY,
      frames: [{ ...DEMO_SURVEY.frames[0], frames: [12, 18] }],
    });
    const change = compareExpansions(demo, fewer);
    expect(change.dropped.every((ref) => /frame-19|strake-12-plank-3/.test(ref))).toBe(true);
    expect(change.dropped).toContain('frame-19-starboard-draw-pieces');
    expect(change.added).toEqual([]);
    expect(change.kept).toContain('frame-12-starboard-draw-pieces');
    expect(change.changed.every(({ fields }) => fields.every((field) => field === 'estimate'))).toBe(true);
  });

  it('adds what a rotten floor asks for, planks of both sides, and keeps the rest', () => {
    const floor = expand({
      ...DEMO_SURVEY,
      frames: [
        ...DEMO_SURVEY.frames,
        { frames: [16, 16], side: 'starboard', pieces: [0], finding: 'renew', cause: null },
      ],
    });
    const change = compareExpansions(demo, floor);
    expect(change.dropped).toEqual([]);
    expect(change.added).toContain('strake-1-plank-2-port-lift-off');
    expect(task('frame-16-starboard-draw-pieces', floor).opens).toEqual([
      'frame-16-starboard',
      'frame-16-port',
    ]);
    expect(linkOf('frame-16-starboard-pass', 'strake-1-plank-2-port-seen-open', floor)).toBeDefined();
    expect(change.changed.map(({ ref }) => ref)).toContain('frame-16-starboard-draw-pieces');
    expect(orderOf(floor)).toHaveLength(floor.tasks.length);
  });

  it('gives tasks without circles for any survey that can be reached', () => {
    const finding = fc.record({
      first: fc.integer({ min: 2, max: 40 }),
      more: fc.integer({ min: 0, max: 4 }),
      side: fc.constantFrom('port' as const, 'starboard' as const),
      pieces: fc.subarray([0, 1, 2, 3, 4], { minLength: 1 }),
    });
    fc.assert(
      fc.property(fc.array(finding, { minLength: 1, maxLength: 3 }), (findings) => {
        const survey: Survey = {
          frames: findings.map(({ first, more, side, pieces }) => ({
            frames: [first, first + more],
            side,
            pieces,
            finding: 'renew',
            cause: null,
          })),
          planks: [],
          causes: [],
        };
        const expansion = expand(survey);
        expect(orderOf(expansion)).toHaveLength(expansion.tasks.length);
        expect(expand(survey)).toEqual(expansion);
        const opened = expansion.tasks.flatMap((one) => one.opens);
        expect([...expansion.tasks.flatMap((one) => one.closes)].sort()).toEqual([...opened].sort());
      }),
      { numRuns: 12 },
    );
  });
});

describe('what else the scope says', () => {
  it('a repair without its cause mended is temporary', () => {
    expect(scopeOf(DEMO_SURVEY).temporary).toEqual([]);
    const leaking = { ...DEMO_SURVEY, causes: [{ ...DEMO_SURVEY.causes[0], hasTask: false }] };
    expect(scopeOf(leaking).temporary).toHaveLength(16);
  });

  it('a new joint is a departure, with who decided it', () => {
    const cut = scopeOf({
      frames: [
        {
          frames: [12, 12],
          side: 'starboard',
          pieces: [3],
          finding: 'new joint',
          at: 11.5,
          part: 'above',
          why: 'sound below',
          decidedBy: 'Odalys Brenn',
          cause: null,
        },
      ],
      planks: [],
      causes: [],
    });
    expect(cut.departures).toEqual([
      'new joint in frame 12 starboard third futtock at 11.5: sound below; it lies 6 in from a joint of the other layer where 21 in is wanted (decided by Odalys Brenn)',
    ]);
    expect(cut.elements.find((one) => one.kind === 'frame')!.counts['new joints']).toBe(1);
  });

  it('refuses a survey that names a cause it does not list, or a piece that is not there', () => {
    const broken =
      (change: Partial<Survey['frames'][number]>): (() => Scope) =>
      () =>
        scopeOf({
          ...DEMO_SURVEY,
          frames: [{ ...DEMO_SURVEY.frames[0], ...change } as Survey['frames'][number]],
        });
    expect(broken({ cause: 'unknown' })).toThrow(HullRefusal);
    expect(broken({ pieces: [7] })).toThrow(HullRefusal);
  });
});

describe('the book of methods', () => {
  it('has no faults and is plain data', () => {
    expect(checkBook(STARTING_BOOK)).toEqual([]);
    expect(JSON.parse(JSON.stringify(STARTING_BOOK))).toEqual(STARTING_BOOK);
  });

  it('names every fault by its place', () => {
    const book = structuredClone<MethodBook>(STARTING_BOOK);
    book.methods[0].steps[1].crew.min = 9;
    book.methods[0].steps[1].estimate = { by: 'count', count: 'bolts', rate: 'no-such-rate' };
    book.methods[0].steps[0].after.push({
      step: 'pass',
      of: 'itself',
      relation: 'finish-to-start',
      lag: { turnouts: 0 },
    });
    book.rates[0].low = 99;
    book.methods[2].steps.find((step) => step.closes)!.closes = false;
    expect(checkBook(book).map((fault) => fault.path)).toEqual([
      'rates[0]',
      'methods[0].steps[1].crew',
      'methods[0].steps[1].estimate.rate',
      'methods[0].steps',
      'methods[2].steps',
    ]);
    expect(() => expandScope(book, [], 300)).toThrow(HullRefusal);
  });

  it('is changed only with a name and a reason, and its version goes up', () => {
    const [method] = STARTING_BOOK.methods;
    const written = { by: 'Odalys Brenn', reason: 'two hoists here' };
    const changed = changeMethod(STARTING_BOOK, { ...method, title: 'renew pieces' }, written);
    expect(changed.methods[0]).toMatchObject({ version: 2, changed: written });
    expect(STARTING_BOOK.methods[0].version).toBe(1);
    expect(() => changeMethod(STARTING_BOOK, method, { by: '', reason: 'x' })).toThrow(HullRefusal);
  });

  it('takes the crew’s own rate, and tasks keep their names', () => {
    const book = changeRate(STARTING_BOOK, 'nails-pulled', { low: 2, likely: 3, high: 4 });
    const change = compareExpansions(demo, expand(DEMO_SURVEY, book));
    expect(change.changed.map(({ ref }) => ref).every((ref) => ref.endsWith('pull-nails'))).toBe(true);
    expect(change.changed).toHaveLength(12);
    expect(change.added.length + change.dropped.length).toBe(0);
  });
});

describe('a scarf and a new joint are two things', () => {
  const [longest] = [...frameOf(hull, 15, 'starboard').pieces].sort(
    (a, b) => b.to - b.from - (a.to - a.from),
  );
  const at = longest.to - 1;
  const cut = {
    side: 'starboard' as const,
    frames: [15, 15] as [number, number],
    pieces: [longest.number],
    cause: null,
  };
  const decided = { at, part: 'above', why: 'the foot is sound', decidedBy: 'Odalys Brenn' } as const;
  const of = (finding: Survey['frames'][number]): Scope =>
    scopeOf({ ...DEMO_SURVEY, causes: [], planks: [], frames: [finding] });
  const frame = (scope: Scope) => scope.elements.find(({ key }) => key === 'frame-15-starboard')!;
  const joint = of({ ...cut, finding: 'new joint', ...decided });
  const scarf = of({
    ...cut,
    finding: 'scarf',
    scarf: 'bolted, keel type',
    ...decided,
  });

  it('each counted, and each with its own work', () => {
    expect(frame(joint).counts).toMatchObject({ 'new joints': 1, scarfs: 0 });
    expect(frame(scarf).counts).toMatchObject({ 'new joints': 0, scarfs: 1 });
    const steps = (scope: Scope): string[] =>
      expandScope(STARTING_BOOK, scope.elements, 300).tasks.map(({ step }) => step);
    expect(steps(joint)).toContain('cut-joint');
    expect(steps(joint)).not.toContain('cut-scarf');
    expect(steps(scarf)).toContain('cut-scarf');
    expect(steps(scarf)).not.toContain('cut-joint');
  });

  it('the scarf reaches below its cut, and goes on record with its kind, its length and who decided', () => {
    expect(joint.drawn[0]?.from).toBe(at);
    expect(scarf.drawn[0]?.from).toBeLessThan(at);
    expect(scarf.departures.join()).toMatch(
      /^bolted, keel type scarf, \d+ in long, in .+ \(decided by Odalys Brenn\)$/,
    );
  });
});

describe('a plank can wait for the strake above it', () => {
  it('as for the one below, where the method says so', () => {
    const method = STARTING_BOOK.methods.find(({ key }) => key === 'plank-off-and-back')!;
    const { version: _version, changed: _changed, ...rest } = method;
    const upside = {
      ...rest,
      steps: rest.steps.map((step) => ({
        ...step,
        after: step.after.map((one) =>
          one.of === 'strake below' ? { ...one, of: 'strake above' as const } : one,
        ),
      })),
    };
    const book = changeMethod(STARTING_BOOK, upside, {
      by: 'Odalys Brenn',
      reason: 'hung from the sheer down',
    });
    const of = expand(DEMO_SURVEY, book);
    const hung = of.links.filter(
      ({ before, after }) => before.endsWith('-drive-nails') && after.endsWith('-steam-hang'),
    );
    const strake = (ref: string): number => Number(/^strake-(\d+)-/.exec(ref)?.[1]);
    const between = hung.filter(({ before, after }) => strake(before) !== strake(after));
    expect(between.length).toBeGreaterThan(0);
    expect(between.every(({ before, after }) => strake(before) === strake(after) + 1)).toBe(true);
    expect(orderOf(of)).toHaveLength(of.tasks.length);
  });
});

describe('what changed between two versions of a method', () => {
  const [method] = STARTING_BOOK.methods;

  it('is said step by step', () => {
    const [first, second, ...rest] = method.steps;
    const after = {
      ...method,
      steps: [{ ...first, crew: { ...first.crew, max: 9 }, cautions: ['Mind the gap.'] }, ...rest],
    };
    expect(whatChanged(method, after)).toEqual([
      `${first.title}: crew, cautions`,
      `without: ${second.title}`,
    ]);
  });

  it('is nothing that could be missed: a new method, or another order, is said too', () => {
    expect(whatChanged(null, method)).toEqual(['a new method']);
    expect(whatChanged(method, { ...method, steps: [...method.steps].reverse() })).toEqual([
      'the order of its steps',
    ]);
  });
});
