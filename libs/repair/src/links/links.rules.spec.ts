import fc from 'fast-check';
import { circleWith, type Arrow } from './circle.js';
import { linkSentence } from './link-sentence.js';
import type { LagKind, Relation } from './link-words.js';

const said = (relation: Relation, lagMinutes = 0, lagKind: LagKind = 'working') =>
  linkSentence({ relation, lagMinutes, lagKind }, 'Bolt frame 12', 300);

describe('A link in words', () => {
  it('says which end waits for which', () => {
    expect(said('finish-to-start')).toBe('after “Bolt frame 12” is done');
    expect(said('start-to-start')).toBe('once “Bolt frame 12” has begun');
    expect(said('finish-to-finish')).toBe('ends no earlier than “Bolt frame 12”');
    expect(said('start-to-finish')).toBe('ends after “Bolt frame 12” has begun');
  });

  it('counts working time in turnouts where it comes out even, and else in hours or minutes', () => {
    expect(said('finish-to-start', 600)).toBe('two turnouts after “Bolt frame 12” is done');
    expect(said('start-to-start', 300)).toBe('one turnout after “Bolt frame 12” has begun');
    expect(said('finish-to-start', 120)).toBe('two working hours after “Bolt frame 12” is done');
    expect(said('finish-to-start', 45)).toBe('45 working minutes after “Bolt frame 12” is done');
    expect(
      linkSentence({ relation: 'finish-to-start', lagMinutes: 300, lagKind: 'working' }, 'x', null),
    ).toBe('five working hours after “x” is done');
  });

  it('counts time that passes by itself in days where it comes out even', () => {
    expect(said('finish-to-start', 1440, 'elapsed')).toBe('one day after “Bolt frame 12” is done');
    expect(said('finish-to-finish', 28 * 1440, 'elapsed')).toBe(
      'ends at least 28 days after “Bolt frame 12”',
    );
    expect(said('finish-to-start', 2160, 'elapsed')).toBe('36 hours after “Bolt frame 12” is done');
  });

  it('says how far two may overlap', () => {
    expect(said('finish-to-start', -300)).toBe('from one turnout before “Bolt frame 12” is done');
    expect(said('finish-to-finish', -60)).toBe('ends at most one working hour before “Bolt frame 12”');
  });
});

describe('A circle of links', () => {
  const chain: Arrow[] = [
    { before: 'draw', after: 'punch' },
    { before: 'punch', after: 'plug' },
    { before: 'draw', after: 'pattern' },
    { before: 'pattern', after: 'plug' },
    { before: 'plug', after: 'set' },
  ];

  it('is named task by task, the shortest there is', () => {
    expect(circleWith(chain, { before: 'set', after: 'plug' })).toEqual(['plug', 'set']);
    expect(circleWith(chain, { before: 'set', after: 'punch' })).toEqual(['punch', 'plug', 'set']);
  });

  it('a task can’t wait for itself', () => {
    expect(circleWith(chain, { before: 'set', after: 'set' })).toEqual(['set']);
  });

  it('is found exactly when an order of all tasks no longer exists', () => {
    const task = fc.integer({ min: 0, max: 7 }).map(String);
    // Links that point upwards have an order; the one added may point anywhere.
    const links = fc.array(
      fc
        .tuple(task, task)
        .filter(([a, b]) => a < b)
        .map(([before, after]) => ({ before, after })),
      { maxLength: 20 },
    );
    fc.assert(
      fc.property(links, task, task, (some, before, after) => {
        const circle = circleWith(some, { before, after });
        expect(circle === null).toBe(hasOrder([...some, { before, after }]));
        if (!circle) return;
        expect(circle[0]).toBe(after);
        expect(circle.at(-1)).toBe(before);
        circle.slice(1).forEach((next, at) => {
          expect(some).toContainEqual({ before: circle[at], after: next });
        });
      }),
      { numRuns: 300 },
    );
  });
});

/** Takes away tasks that wait for nothing until none is left, or none can be taken. */
function hasOrder(links: Arrow[]): boolean {
  let rest = links;
  for (;;) {
    const waiting = new Set(rest.map((link) => link.after));
    const next = rest.filter((link) => waiting.has(link.before));
    if (next.length === rest.length) return rest.length === 0;
    rest = next;
  }
}
