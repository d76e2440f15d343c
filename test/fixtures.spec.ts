import { readFileSync } from 'node:fs';
import { addDays, expandRule, instantToLocal, localToInstant } from '@ribband/platform';
import { readYard, type YardDocument } from '@ribband/planning';

const file = new URL('../fixtures/demo-yard.json', import.meta.url);
const given: unknown = JSON.parse(readFileSync(file, 'utf8'));

function demoYard(): YardDocument {
  const read = readYard(given);
  if ('faults' in read) throw new Error(JSON.stringify(read.faults, null, 2));
  return read.document;
}

const yard = demoYard();

/** Sum of the counts over tasks whose ref ends with `ending`. */
function counted(ending: string): number {
  return yard.tasks
    .filter(({ ref }) => ref.endsWith(ending))
    .reduce((sum, { estimate }) => sum + (estimate?.by === 'count' ? estimate.count : NaN), 0);
}

const tasksEnding = (ending: string) => yard.tasks.filter(({ ref }) => ref.endsWith(ending));
const linked = (before: string, after: string) =>
  yard.links.some((link) => link.before === before && link.after === after);

/** Everything that has to be done before a task, however far back. */
function forerunners(ref: string): Set<string> {
  const found = new Set<string>();
  const walk = (after: string) => {
    for (const link of yard.links)
      if (link.after === after && !found.has(link.before)) {
        found.add(link.before);
        walk(link.before);
      }
  };
  walk(ref);
  return found;
}

describe('the demo yard', () => {
  it('passes every check of the yard document', () => {
    expect(readYard(given)).toEqual({ document: given });
  });

  it('counts what the survey counted', () => {
    expect({
      bungsOut: counted('-dig-bungs'),
      plankNailsPulled: counted('-pull-nails'),
      ceilingNailsPulled: counted('-strip-ceiling'),
      bolts: counted('-cut-bolts'),
      stubs: counted('-punch-stubs'),
      plugs: counted('-plug-holes'),
      nailsDriven: counted('-drive-nails'),
      bungsIn: counted('-bung'),
      feetOfSeam: counted('caulk-seams'),
    }).toEqual({
      bungsOut: 432,
      plankNailsPulled: 432,
      ceilingNailsPulled: 112,
      bolts: 48,
      stubs: 64,
      plugs: 192,
      nailsDriven: 432,
      bungsIn: 432,
      feetOfSeam: 420,
    });
  });

  it('has eight frames to renew and twelve planks to take off and put back, each opened and closed once', () => {
    for (const [kind, count] of [
      ['frame', 8],
      ['plank', 12],
    ] as const) {
      const elements = yard.elements.filter((element) => element.kind === kind);
      expect(elements).toHaveLength(count);
      for (const { ref } of elements) {
        expect(yard.tasks.filter((task) => task.opens.includes(ref))).toHaveLength(1);
        expect(yard.tasks.filter((task) => task.closes.includes(ref))).toHaveLength(1);
      }
    }
    expect(tasksEnding('-draw-futtocks')).toHaveLength(8);
    expect(tasksEnding('-hang')).toHaveLength(12);
  });

  it('has 93 turnouts from the haul-out to the gate, Wednesdays, Saturdays and Sundays of five hours', () => {
    const closed = new Set(yard.closedDays.map(({ on }) => on));
    const [rule] = yard.turnoutRules;
    const { timeZone } = yard.haulOut;
    const starts = expandRule(
      { ...rule, timeZone },
      localToInstant('2027-01-01', '00:00', timeZone),
      localToInstant('2029-01-01', '00:00', timeZone),
    );
    const days = starts.map((start) => instantToLocal(start, timeZone).day).filter((day) => !closed.has(day));
    expect(days[0]).toBe('2027-03-06');
    expect(days.filter((day) => day <= '2027-10-16')).toHaveLength(93);
    expect([rule.startTime, rule.endTime]).toEqual(['09:00', '14:00']);
    const fallback = yard.haulOut.liftSlots.find((slot) => slot.kind === 'fallback');
    expect(fallback).toMatchObject({ on: '2027-11-15', extraCostCents: 640_000 });
    expect(days.at(-1)).toBe(addDays('2027-11-15', 52 * 7 - 1));
    expect(yard.haulOut.liftSlots[0]).toMatchObject({
      kind: 'gate',
      on: '2027-10-16',
      startTime: '07:10',
      endTime: '08:40',
      confirmBy: '2027-09-18',
    });
  });

  it('never lets two neighbouring frames, nor two of three in a run, out at once', () => {
    for (let frame = 12; frame < 19; frame++) {
      const limit = yard.openingLimits.find(
        ({ ref }) => ref === `frames-${String(frame)}-and-${String(frame + 1)}`,
      );
      expect(limit).toMatchObject({
        elements: [`frame-${String(frame)}`, `frame-${String(frame + 1)}`],
        atMost: 1,
        override: null,
      });
    }
    const runs = yard.openingLimits.filter(({ elements }) => elements.length === 3);
    expect(runs).toHaveLength(6);
    for (const run of runs) expect(run).toMatchObject({ atMost: 1, override: null });
  });

  it('opens six strakes side by side only with the written override of the lead shipwright', () => {
    const strakes = yard.openingLimits.filter(({ elements }) => elements.length === 6);
    expect(strakes).toHaveLength(2);
    for (const limit of strakes) {
      expect(limit.atMost).toBe(4);
      expect(limit.override?.by).toBe('Odalys Brenn');
      expect(limit.override?.reason).toMatch(/[Rr]ibbands/);
    }
  });

  it('keeps braces until the caulking is done, and the ceiling off until the surveyor has seen the frames', () => {
    expect(forerunners('strike-braces')).toContain('caulk-butts');
    expect(forerunners('refit-ceiling')).toContain('surveyor-sees-frames');
    for (const { ref } of tasksEnding('-hang')) expect(linked('surveyor-sees-frames', ref)).toBe(true);
    const closer = yard.tasks.find((task) => task.closes.includes('ceiling-inspection-strake'));
    expect(forerunners(closer?.ref ?? '')).toContain('float-watch');
  });

  it('frees each frame, has its sling seen and its braces passed before it is drawn', () => {
    for (let frame = 12; frame < 20; frame++) {
      const before = forerunners(`frame-${String(frame)}-draw-futtocks`);
      for (const ref of ['sling-seen', 'cut-bolts', 'strip-ceiling'])
        expect(before).toContain(`frame-${String(frame)}-${ref}`);
      expect(before).toContain('braces-passed');
      expect(before).toContain('ribbands-fitted');
      const side = frame < 16 ? 'forward' : 'aft';
      for (let strake = 9; strake < 15; strake++)
        expect(before).toContain(`strake-${String(strake)}-${side}-lift-off`);
    }
  });

  it('leaves blocking to the yard: no volunteer places', () => {
    for (const ref of ['yard-sets-blocks', 'blocking-passed']) {
      const task = yard.tasks.find((each) => each.ref === ref);
      expect(task).toMatchObject({ seats: [], crew: { min: 0, efficient: 0, max: 0 } });
    }
  });

  it('has a fire watch of its own at every cut, and adults only where the hull is opened', () => {
    for (const task of yard.tasks
      .filter(({ hazards }) => hazards.includes('hot-work'))
      .filter(({ kind }) => kind === 'work'))
      expect(task.seats.map(({ skill }) => skill)).toEqual(
        expect.arrayContaining(['bolt-cutting', 'fire-watch']),
      );
    for (const task of yard.tasks.filter(({ opens }) => opens.length > 0)) expect(task.leastAge).toBe(18);
  });

  it('asks of every task’s seats only what somebody in the crew can do with the card for it', () => {
    for (const task of yard.tasks)
      for (const seat of task.seats) {
        const able = yard.volunteers.filter(
          ({ skills, cards }) =>
            skills.some(({ skill, level }) => skill === seat.skill && level >= seat.level) &&
            seat.cards.every((kind) => cards.some((card) => card.kind === kind)),
        );
        expect({ task: task.ref, able: able.length >= seat.count }).toEqual({ task: task.ref, able: true });
      }
  });

  it('has thirty people, two of them minors, and four who sign in', () => {
    expect(yard.volunteers).toHaveLength(30);
    expect(yard.volunteers.filter(({ bornOn }) => bornOn !== null && bornOn > '2009-10-16')).toHaveLength(2);
    expect(yard.volunteers.flatMap(({ email }) => email ?? []).sort()).toEqual([
      'lachlan.birse@example.org',
      'odalys.brenn@example.org',
      'perrin.vaskell@example.org',
      'thandeka.orrill@example.org',
    ]);
  });

  it('has a sawyer who is away in June, and no first-aider on Sundays from 14 March', () => {
    const sawyers = yard.volunteers.filter(({ skills }) =>
      skills.some(({ skill, level }) => skill === 'sawing' && level >= 2),
    );
    expect(sawyers.map(({ name }) => name)).toEqual(['Anselm Druitt']);
    expect(sawyers[0].availability.exceptions).toEqual([
      { fromOn: '2027-06-05', toOn: '2027-06-26', canCome: false, from: null, to: null },
    ]);
    const onSundays = yard.volunteers.filter(({ availability }) =>
      availability.rules.some(({ rule }) => rule.includes('SU')),
    );
    const cards = onSundays.flatMap(({ cards }) => cards.filter(({ kind }) => kind === 'first-aid'));
    expect(cards.map(({ expiresOn }) => expiresOn)).toEqual(['2027-03-13']);
  });
});
