import { figure, figureTable } from './figure.js';
import { scarce } from './classical.js';
import { events } from './events.js';
import { changes, posted, runYard } from './yard-runs.js';
import { generatedYard, usualYard } from '../generate/yard.js';

describe('a figure', () => {
  it('is a line of five keys that can be read back', () => {
    const line = JSON.stringify(figure('first plan', 120, 'ms', 'one network pass', 40));
    expect(JSON.parse(line)).toEqual({
      name: 'first plan',
      value: 120,
      unit: 'ms',
      against: 'one network pass: 40 ms',
      ratio: 3,
    });
  });

  it('has no ratio beside nothing, and 1 where both are the same', () => {
    expect(figure('proved', 2, 'problems', 'solver', 0).ratio).toBeNull();
    expect(figure('proved', 0, 'problems', 'solver', 0).ratio).toBe(1);
    expect(figureTable([figure('proved', 2, 'problems', 'solver', 0)])[1]).toMatch(
      /^proved {2}2 problems .* -$/,
    );
  });

  it('is measured on projects that differ', () => {
    const texts = scarce(30, 10).map((one) => JSON.stringify(one));
    expect(new Set(texts).size).toBe(10);
  });
});

describe('what an event costs', () => {
  const problem = generatedYard(usualYard(40, 3));
  const { plan, faults } = runYard(problem);

  it('is counted from a sound plan, none of whose posted places is changed by itself', () => {
    expect(faults).toEqual([]);
    expect(changes(posted(problem, plan), plan)).toBe(0);
  });

  it('counts a place as changed when its person is gone from it', () => {
    const postings = posted(problem, plan);
    const [{ task, turnout, person }] = postings;
    const without = plan.segments.map((one) =>
      one.task === task && one.turnout === turnout
        ? { ...one, crew: one.crew.filter((hand) => hand.person !== person) }
        : one,
    );
    expect(changes(postings, { ...plan, segments: without })).toBe(1);
  });

  it('leaves a yard that can be planned on', () => {
    for (const event of events(problem, plan)) {
      expect(event.postings.length).toBeGreaterThan(0);
      expect(runYard(event.problem, { warm: plan }).faults).toEqual([]);
    }
  });
});
