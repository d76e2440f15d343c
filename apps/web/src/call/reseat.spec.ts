import fc from 'fast-check';
import { reseat, type SheetPerson, type SheetWork } from './reseat.js';

const person = (name: string, rest: Partial<SheetPerson> = {}): SheetPerson => ({
  hand: { volunteerId: name, name },
  isKnownAdult: true,
  isMinor: false,
  isFirstAider: false,
  ...rest,
});
const verdict = (name: string, rest: Partial<SheetWork['verdicts'][number]> = {}) => ({
  volunteerId: name,
  mayAsHand: true,
  seats: [],
  learns: false,
  worksAlone: false,
  mayWatch: false,
  ...rest,
});
const work = (id: string, names: string[], rest: Partial<SheetWork> = {}): SheetWork => ({
  task: { id, title: id, crewMin: 1, crewMax: 4 },
  startsAt: '2027-03-20T16:00:00Z',
  endsAt: '2027-03-20T21:00:00Z',
  closed: null,
  postedIds: [],
  seats: [],
  carriers: 1,
  verdicts: names.map((name) => verdict(name)),
  ...rest,
});
const sawing = { skillId: 'sawing', skillName: 'Sawing', level: 2, count: 1 };
const on = (result: ReturnType<typeof reseat>, taskId: string) =>
  result.seats.flatMap((seat) => (seat.taskId === taskId ? [seat.volunteerId] : [])).sort();

const names = ['anselm', 'maud', 'noor'];

describe('a turnout that is called without a line', () => {
  it('stays as it was posted where everybody came', () => {
    const sheet = {
      asksFirstAider: false,
      people: names.map((name) => person(name)),
      work: [
        work('carry', names, { postedIds: ['anselm', 'maud'] }),
        work('sort', names, { postedIds: ['noor'] }),
      ],
    };
    const result = reseat(sheet, names);
    expect([on(result, 'carry'), on(result, 'sort')]).toEqual([['anselm', 'maud'], ['noor']]);
    expect(result.fallen).toEqual([]);
  });

  it('lets work fall away for which nobody is here, and its people join other work', () => {
    const saw = work('saw', names, {
      seats: [sawing],
      task: { id: 'saw', title: 'saw', crewMin: 2, crewMax: 3 },
      postedIds: ['anselm', 'maud'],
      verdicts: names.map((name) => verdict(name, { seats: name === 'anselm' ? [0] : [] })),
    });
    const sheet = {
      asksFirstAider: false,
      people: names.map((name) => person(name)),
      work: [saw, work('sort', names, { postedIds: ['noor'] })],
    };
    const result = reseat(sheet, ['maud', 'noor']);
    expect(result.fallen).toEqual([{ taskId: 'saw', why: 'Nobody here for sawing.' }]);
    expect(on(result, 'sort')).toEqual(['maud', 'noor']);
  });

  it('fills a seat with somebody who walked in, and gives the others a place where there is room', () => {
    const saw = work('saw', names, {
      seats: [sawing],
      postedIds: ['maud'],
      verdicts: names.map((name) => verdict(name, { seats: name === 'anselm' ? [0] : [] })),
    });
    const result = reseat({ asksFirstAider: false, people: names.map((name) => person(name)), work: [saw] }, [
      'anselm',
      'maud',
      'noor',
    ]);
    expect(result.seats.find(({ volunteerId }) => volunteerId === 'anselm')?.seat).toBe(0);
    expect(result.idle).toEqual([]);
  });

  it('lets nobody under 18 work without an adult on the work and two at the yard', () => {
    const people = [person('noor', { isKnownAdult: false, isMinor: true }), person('maud'), person('anselm')];
    const sheet = {
      asksFirstAider: false,
      people,
      work: [work('sort', names, { postedIds: ['noor', 'maud'] })],
    };
    expect(on(reseat(sheet, ['noor', 'maud']), 'sort')).toEqual(['maud']);
    expect(reseat(sheet, ['noor']).seats).toEqual([]);
    expect(on(reseat(sheet, ['noor', 'maud', 'anselm']), 'sort')).toEqual(['anselm', 'maud', 'noor']);
  });

  it('lets nobody learn without somebody beside them who works alone', () => {
    const sheet = {
      asksFirstAider: false,
      people: names.map((name) => person(name)),
      work: [
        work('saw', names, {
          postedIds: ['maud', 'noor'],
          verdicts: [
            verdict('anselm', { worksAlone: true }),
            verdict('maud', { learns: true }),
            verdict('noor'),
          ],
        }),
      ],
    };
    expect(on(reseat(sheet, ['maud', 'noor']), 'saw')).toEqual(['noor']);
  });

  it('gives no work out where nobody holds a first-aid card, and none to somebody alone', () => {
    const people = [person('anselm', { isFirstAider: true }), person('maud'), person('noor')];
    const sheet = { asksFirstAider: true, people, work: [work('sort', names, { postedIds: names })] };
    const without = reseat(sheet, ['maud', 'noor']);
    expect(without.seats).toEqual([]);
    expect(without.fallen[0]?.why).toMatch(/first-aid card/);
    expect(on(reseat(sheet, ['anselm', 'noor']), 'sort')).toEqual(['anselm', 'noor']);
    expect(reseat(sheet, ['anselm']).fallen[0]?.why).toMatch(/alone/);
  });

  it('starts hot work with a watch who does nothing else, and a lift with those who carry it', () => {
    const cut = work('cut', names, {
      seats: [sawing],
      watch: { seats: [] },
      postedIds: ['anselm'],
      verdicts: [verdict('anselm', { seats: [0], mayWatch: true }), verdict('maud'), verdict('noor')],
    });
    const people = names.map((name) => person(name));
    const sheet = { asksFirstAider: false, people, work: [cut] };
    expect(reseat(sheet, names).fallen[0]?.why).toMatch(/fire watch/);
    cut.verdicts[2] = verdict('noor', { mayWatch: true });
    expect(on(reseat(sheet, names), 'cut')).toContain('noor');
    expect(reseat(sheet, ['anselm', 'maud']).seats).toEqual([]);
    const lift = { ...sheet, work: [work('lift', names, { carriers: 3, postedIds: ['anselm', 'maud'] })] };
    expect(reseat(lift, ['anselm', 'maud']).fallen[0]?.why).toMatch(/takes 3/);
    expect(on(reseat(lift, names), 'lift')).toEqual(names);
  });

  it('keeps closed work shut and says why', () => {
    const sheet = {
      asksFirstAider: false,
      people: names.map((name) => person(name)),
      work: [work('draw', names, { closed: 'Frame 13 is out.', postedIds: names })],
    };
    const result = reseat(sheet, names);
    expect(result.fallen).toEqual([{ taskId: 'draw', why: 'Frame 13 is out.' }]);
    expect(result.idle.sort()).toEqual(names);
  });

  it('seats nobody twice at a time, nobody whom a gate stops, and no crew that is too small, whoever comes', () => {
    const ids = ['a', 'b', 'c', 'd', 'e', 'f'];
    const anyVerdict = (name: string) =>
      fc.record({
        volunteerId: fc.constant(name),
        mayAsHand: fc.boolean(),
        seats: fc.subarray([0]),
        learns: fc.boolean(),
        worksAlone: fc.boolean(),
        mayWatch: fc.constant(false),
      });
    const anyWork = (id: string) =>
      fc.record({
        task: fc.record({
          id: fc.constant(id),
          title: fc.constant(id),
          crewMin: fc.integer({ min: 1, max: 3 }),
          crewMax: fc.integer({ min: 3, max: 5 }),
        }),
        startsAt: fc.constant('2027-03-20T16:00:00Z'),
        endsAt: fc.constant('2027-03-20T21:00:00Z'),
        closed: fc.constantFrom(null, null, null, 'shut'),
        postedIds: fc.subarray(ids),
        seats: fc.subarray([sawing]),
        carriers: fc.constant(1),
        verdicts: fc.tuple(...ids.map(anyVerdict)),
      });
    const anyPerson = (name: string) =>
      fc.boolean().map((isMinor) => person(name, { isMinor, isKnownAdult: !isMinor }));
    fc.assert(
      fc.property(
        fc.tuple(...ids.map(anyPerson)),
        fc.tuple(anyWork('one'), anyWork('two'), anyWork('three')),
        fc.subarray(ids),
        (people, given, present) => {
          // A posting names somebody once at a time.
          const taken = new Set<string>();
          const works = given.map((one) => ({
            ...one,
            postedIds: one.postedIds.filter((id) => !taken.has(id) && taken.add(id)),
          }));
          const result = reseat({ asksFirstAider: false, people, work: works }, present);
          const seated = result.seats.map(({ volunteerId }) => volunteerId);
          expect(new Set(seated).size).toBe(seated.length);
          expect([...seated, ...result.idle].sort()).toEqual([...present].sort());
          const adults = present.filter(
            (id) => people.find((one) => one.hand.volunteerId === id)?.isKnownAdult,
          );
          for (const one of works) {
            const crew = result.seats.filter(({ taskId }) => taskId === one.task.id);
            if (crew.length === 0) continue;
            expect(one.closed).toBeNull();
            expect(crew.length).toBeGreaterThanOrEqual(one.task.crewMin);
            expect(crew.length).toBeLessThanOrEqual(Math.max(one.task.crewMax, one.postedIds.length));
            if (one.seats.length > 0) expect(crew.filter(({ seat }) => seat === 0)).toHaveLength(1);
            for (const { volunteerId, seat } of crew) {
              const said = one.verdicts.find((each) => each.volunteerId === volunteerId);
              expect(seat === null ? said?.mayAsHand : said?.seats.includes(seat)).toBe(true);
              const others = crew.map((each) => each.volunteerId).filter((id) => id !== volunteerId);
              if (said?.learns)
                expect(
                  others.some((id) => one.verdicts.find((each) => each.volunteerId === id)?.worksAlone),
                ).toBe(true);
              if (people.find((each) => each.hand.volunteerId === volunteerId)?.isMinor) {
                expect(adults.length).toBeGreaterThanOrEqual(2);
                expect(others.some((id) => adults.includes(id))).toBe(true);
              }
            }
          }
        },
      ),
      { numRuns: 300 },
    );
  });
});
