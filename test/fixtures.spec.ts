import { readFileSync } from 'node:fs';
import { addDays, expandRule, instantToLocal, localToInstant } from '@ribband/platform';
import { readYard, type YardDocument } from '@ribband/planning';
import { workedIn } from '@ribband/repair';

const file = new URL('../fixtures/demo-yard.json', import.meta.url);
const text = readFileSync(file, 'utf8');
const given: unknown = JSON.parse(text);

/** The whole yard: what its list has, and what its survey comes to by its methods. */
function demoYard(): YardDocument {
  const read = readYard(given);
  if ('faults' in read) throw new Error(JSON.stringify(read.faults, null, 2));
  const { skills, tools, cardKinds } = read.document;
  return workedIn(read.document, { skills, tools, cards: cardKinds }).document;
}

const yard = demoYard();

/** Sum of the counts over tasks on one kind of element whose ref ends with a step. */
function counted(kind: 'frame' | 'strake' | 'ceiling' | 'vessel', ending: string): number {
  return yard.tasks
    .filter(({ ref }) => ref.startsWith(`${kind}-`) && ref.endsWith(ending))
    .reduce((sum, { estimate }) => sum + (estimate?.by === 'count' ? estimate.count : NaN), 0);
}

const tasksEnding = (ending: string) => yard.tasks.filter(({ ref }) => ref.endsWith(ending));
const frameKey = (frame: number) => `frame-${String(frame)}-starboard`;
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

  it('says nothing twice: of two keys of one name only the last would be read', () => {
    // 4978.0 is written 4978.
    const bare = (json: string) => json.replace(/\s+/g, '').replace(/\.0+(?=[,\]}])/g, '');
    expect(bare(JSON.stringify(given))).toBe(bare(text));
  });

  it('has no task list of its own for what the survey asks for', () => {
    const { tasks, elements, openingLimits } = given as YardDocument;
    expect([elements, openingLimits]).toEqual([[], []]);
    expect(tasks).toHaveLength(54);
    expect(tasks.filter(({ ref }) => /^(frame|strake|ceiling)-\d/.test(ref))).toEqual([]);
    expect(yard.tasks).toHaveLength(310);
  });

  it('counts what the survey counted', () => {
    expect({
      bungsOut: counted('strake', '-bungs-out'),
      plankNailsPulled: counted('strake', '-pull-nails'),
      ceilingNailsPulled: counted('ceiling', '-pull-nails'),
      bolts: counted('frame', '-bolts-out'),
      stubs: counted('frame', '-punch-stubs'),
      plugs: counted('frame', '-plug-holes'),
      nailsDriven: counted('strake', '-drive-nails'),
      newNails: counted('frame', '-new-nails'),
      bungsIn: counted('strake', '-bung'),
      feetOfSeam: counted('vessel', '-caulk'),
    }).toEqual({
      bungsOut: 432,
      plankNailsPulled: 432,
      ceilingNailsPulled: 112,
      bolts: 48,
      stubs: 64,
      plugs: 192,
      nailsDriven: 432,
      newNails: 64,
      bungsIn: 432,
      feetOfSeam: 243,
    });
  });

  it('has eight frames to renew, twelve planks and seven of the ceiling off and back, each opened and closed once', () => {
    for (const [kind, count] of [
      ['frame', 8],
      ['plank', 12],
      ['ceiling', 7],
    ] as const) {
      const elements = yard.elements.filter((element) => element.kind === kind);
      expect(elements).toHaveLength(count);
      for (const { ref } of elements) {
        expect(yard.tasks.filter((task) => task.opens.includes(ref))).toHaveLength(1);
        expect(yard.tasks.filter((task) => task.closes.includes(ref))).toHaveLength(1);
      }
    }
    expect(tasksEnding('-draw-pieces')).toHaveLength(8);
    expect(tasksEnding('-steam-hang')).toHaveLength(12);
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
    const limits = yard.openingLimits.filter(({ elements }) => elements[0].startsWith('frame-'));
    for (let frame = 12; frame < 19; frame++)
      expect(limits).toContainEqual(
        expect.objectContaining({
          elements: [frameKey(frame), frameKey(frame + 1)],
          atMost: 1,
          override: null,
        }),
      );
    const runs = limits.filter(({ elements }) => elements.length === 3);
    expect(runs).toHaveLength(6);
    for (const run of runs) expect(run).toMatchObject({ atMost: 1, override: null });
  });

  it('opens six strakes side by side only with the written override of the lead shipwright', () => {
    const strakes = yard.openingLimits.filter(({ elements }) => elements[0].startsWith('strake-'));
    expect(strakes.length).toBeGreaterThan(0);
    for (const limit of strakes) {
      expect(limit.atMost).toBe(3);
      expect(limit.override?.by).toBe('Odalys Brenn');
      expect(limit.override?.reason).toMatch(/[Rr]ibbands/);
    }
  });

  it('keeps braces until the caulking is done, and the ceiling off until the surveyor has seen the frames', () => {
    expect(forerunners('vessel-strike-braces')).toContain('vessel-caulk-ends');
    for (const { ref } of tasksEnding('-refit')) expect(forerunners(ref)).toContain('surveyor-sees-frames');
    for (const { ref } of tasksEnding('-steam-hang')) expect(linked('surveyor-sees-frames', ref)).toBe(true);
    const closer = yard.tasks.find((task) => task.closes.includes('ceiling-8-plank-3-starboard'));
    expect(forerunners(closer?.ref ?? '')).toContain('float-watch');
  });

  it('frees each frame, has its sling seen and its braces passed before it is drawn', () => {
    for (let frame = 12; frame < 20; frame++) {
      const before = forerunners(`${frameKey(frame)}-draw-pieces`);
      for (const step of ['slung-and-clear', 'bolts-out'])
        expect(before).toContain(`${frameKey(frame)}-${step}`);
      for (const ref of ['vessel-braces', 'vessel-ribbands', 'vessel-shores']) expect(before).toContain(ref);
      for (let strake = 9; strake < 15; strake++) {
        const over = yard.elements.filter(
          (element) => element.strake === strake && before.has(`${element.ref}-lift-off`),
        );
        expect({ frame, strake, off: over.length > 0 }).toEqual({ frame, strake, off: true });
      }
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

  it('has a sawyer who is away in June, and one first-aider on Sundays from 14 March', () => {
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
    expect(cards.map(({ expiresOn }) => expiresOn)).toEqual(['2027-03-13', '2028-04-30']);
  });
});
