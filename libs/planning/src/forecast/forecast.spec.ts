import { type Forecast, type Problem } from '@ribband/engine';
import { Database, localToInstant, newId, scratchKinds } from '@ribband/platform';
import { YardBoard } from '@ribband/repair';
import { AbsenceEntity, AttendanceEntity, TurnoutEntity } from '@ribband/roster';
import { TestHouse } from '../planning.fixture.js';
import { DayWords } from '../words/days.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import { beliefsOf, paceSentence, type YardRecord } from './beliefs.js';
import { driftWords, oddsSentence, oddsWords, readyByWords } from './forecast-words.js';
import { ForecastDay, ForecastEntity } from './forecast.entity.js';
import { Forecasts } from './forecasts.service.js';
import { readRecord } from './read-record.js';

const zone = 'America/Los_Angeles';

describe('Odds in words', () => {
  it('never claims to be certain, and never says none at all', () => {
    expect([0, 0.03, 0.08, 0.68, 0.93, 0.97, 1].map(oddsWords)).toEqual([
      'hardly any chance',
      'less than 1 in 20',
      'about 1 in 10',
      'about 7 in 10',
      'about 9 in 10',
      'better than 19 in 20',
      'as good as certain, as far as the record goes',
    ]);
  });

  const problem = { skills: [{ id: 's', name: 'Sawing' }], tools: [] } as unknown as Problem;
  const gateAt = localToInstant('2027-10-16', '07:10', zone);
  const days = new DayWords(zone, '2027');

  it('say what decides in the same breath', () => {
    const forecast = {
      gate: { odds: 0.7, error: 0.01 },
      chain: [
        { kind: 'skill', index: 0, share: 0.4 },
        { kind: 'calendar', index: null, share: 0.3 },
        { kind: 'crew', index: null, share: 0.1 },
      ],
    } as unknown as Forecast;
    expect(oddsSentence(forecast, { problem, days, gateAt })).toBe(
      'About 7 in 10 to make the gate on Sat 16 Oct; sawing decides.',
    );
  });

  it('say by which day, against the gate', () => {
    expect(readyByWords('In 8 of 10', gateAt - 7 * 86_400_000, { days, gateAt })).toBe(
      'In 8 of 10: ready by Sat 9 Oct, 7 days before the gate',
    );
    expect(readyByWords('In 8 of 10', null, { days, gateAt })).toBe(
      'In 8 of 10: not within the turnouts that are laid out',
    );
  });

  it('say which way it goes, since when and after what', () => {
    expect(driftWords(2, 'Sat 3 Apr', ['the plank stock came late'])).toBe(
      'Slipping 2 days a week since Sat 3 Apr; then: the plank stock came late.',
    );
    expect(driftWords(-1, 'Sat 3 Apr', [])).toBe('Gaining 1 day a week since Sat 3 Apr.');
    expect(driftWords(0.1, 'Sat 3 Apr', ['x'])).toBe('Holding steady since Sat 3 Apr.');
  });
});

describe('What is believed', () => {
  const problem = {
    people: [{ id: 'ada', stays: [{ showUp: 0.8 }] }],
    tasks: [
      { id: 'pull', effort: { kind: 'work', personMinutes: 600 } },
      { id: 'glue', effort: { kind: 'elapsed', minutes: 600 } },
    ],
  } as unknown as Problem;
  const record = (over: Partial<YardRecord> = {}): YardRecord => ({
    tasks: new Map([
      [
        'pull',
        {
          kind: 'nails',
          kindName: 'Pull nails',
          unit: 'nails',
          pace: { low: 8, likely: 12, high: 20 },
          left: { low: 400, likely: 600, high: 800 },
        },
      ],
      [
        'glue',
        {
          kind: 'glue',
          kindName: 'Glue',
          unit: null,
          pace: null,
          left: { low: 500, likely: 600, high: 900 },
        },
      ],
    ]),
    tallies: new Map(),
    turnouts: [],
    shown: 0,
    sentBack: [],
    awaitsStock: new Set(),
    ...over,
  });

  it('is the book before the first tally, and says so', () => {
    const { beliefs, paces } = beliefsOf(problem, record());
    expect(beliefs.tasks[0]).toMatchObject({ rate: 0, plannedPace: 12, points: null });
    expect(beliefs.tasks[1]).toMatchObject({ rate: null, points: { low: 500, likely: 600, high: 900 } });
    expect(paces.map(paceSentence)).toEqual([
      'Pull nails: 8 to 20 nails a person-hour by the book; nothing tallied yet.',
    ]);
  });

  it('goes with the tallies, and says what they are', () => {
    const day = (k: number) => ({ count: 44, minutes: 240, day: `2027-04-0${String(k)}` });
    const told = beliefsOf(problem, record({ tallies: new Map([['pull', [1, 2, 3, 4, 5, 6].map(day)]]) }));
    const [rate] = told.beliefs.rates;
    expect((rate?.pace.shape ?? 0) / (rate?.pace.rate ?? 1)).toBeCloseTo(11, 0);
    expect(told.paces.map(paceSentence)).toEqual([
      'Pull nails: 11 nails a person-hour from 6 turnouts; the book said 8 to 20.',
    ]);
  });

  it('counts who came and who did not on top of the chance that was stated', () => {
    const came = (yes: boolean) => ({ expected: [{ personId: 'ada', came: yes }] });
    const { beliefs } = beliefsOf(problem, record({ turnouts: [came(true), came(true), came(false)] }));
    // 4 in 5 stated, worth 5 turnouts: (4 + 2) of (5 + 3).
    expect(beliefs.showUp).toEqual([{ a: 6, b: 2 }]);
  });
});

describe.each(scratchKinds())('A forecast of the small yard on %s', (kind) => {
  let house: TestHouse;
  beforeEach(async () => {
    house = await TestHouse.open(kind);
    await house.app.get(YardBook).import(house.caller('director'), smallYard(), false);
    await house.settled();
  });
  afterEach(() => house.close());

  it('follows the plan, is told to those who run the yard, and leaves a line a day', async () => {
    const forecasts = house.app.get(Forecasts);
    const told = await forecasts.newest(house.caller('director'));
    expect(told).toMatchObject({ futures: 2000, isOfPlanInForce: true });
    expect(told?.sentence).toMatch(/ to make the gate on Sat 17 Apr/);
    expect(told?.readyBy.map(({ futures }) => futures)).toEqual([50, 80, 95]);
    expect(told?.slots[0]?.slot.kind).toBe('gate');
    await expect(forecasts.newest(house.caller('volunteer'))).rejects.toThrow('As volunteer you may not do this.');
    expect(await house.database.read.find(ForecastDay)).toMatchObject([
      { madeOn: '2027-03-06', why: ['a yard was read in'] },
    ]);
  });

  it('counts nobody as missing who sent word, nor a turnout that was called off', async () => {
    const { organisationId } = house;
    const [first, second] = await house.database.read.find(TurnoutEntity, {
      order: { startsAt: 'ASC' },
      take: 2,
    });
    const [ada, bo] = await Promise.all([house.volunteer('anselm-druitt'), house.volunteer('halcyon-reeves')]);
    await house.app.get(Database).write(async (manager) => {
      const row = (turnoutId: string, volunteerId: string) => ({
        id: newId('attendance'),
        organisationId,
        turnoutId,
        volunteerId,
      });
      for (const turnout of [first, second])
        await manager.insert(AttendanceEntity, {
          ...row(turnout?.id ?? '', ada.volunteerId ?? ''),
          arrivedAt: turnout?.startsAt ?? 0,
          leftAt: null,
          how: 'ticked',
          enteredBy: 'the coordinator',
        });
      await manager.insert(AbsenceEntity, {
        ...row(first?.id ?? '', bo.volunteerId ?? ''),
        id: newId('absence'),
        saidSo: true,
      });
      await manager.update(TurnoutEntity, { id: second?.id ?? '' }, { cancelledAt: second?.startsAt ?? 0 });
    });
    const board = await house.app.get(YardBoard).of(house.database.read, organisationId);
    const record = await readRecord(house.database.read, organisationId, board, {
      tasks: [],
    } as unknown as Problem);
    expect(record.turnouts).toEqual([{ expected: [{ personId: ada.volunteerId, came: true }] }]);
    expect(await house.database.read.count(ForecastEntity)).toBe(1);
  });
});
