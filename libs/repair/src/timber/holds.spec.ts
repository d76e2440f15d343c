import type { FlitchEntity } from './flitch.entity.js';
import { type HoldFacts, pieceDays } from './holds.js';
import type { LayUpEntity } from './lay-up.entity.js';
import type { MoistureReading } from './moisture-reading.entity.js';
import { countedReadings, flitchDay } from './stock-days.js';
import type { TimberSettings } from './timber-settings.entity.js';

const today = '2027-03-27';

// At 70 degrees and 50 percent stock rests at 9.25 percent.
const settings = {
  fahrenheit: 70,
  humidity: 0.5,
  plankingPercent: 16,
  framesPercent: null,
  leadDays: 56,
} as TimberSettings;

const flitch = (over: Partial<FlitchEntity> = {}) =>
  ({
    id: 'flitch_1',
    mark: 'P1',
    use: 'planking',
    expectedOn: null,
    reservedFor: null,
    usedOn: null,
    ...over,
  }) as FlitchEntity;

const reading = (readOn: string, percent: number, over: Partial<MoistureReading> = {}) =>
  ({
    id: 'moisture_1',
    flitchId: 'flitch_1',
    readOn,
    percent,
    enteredAt: 0,
    withdrawnReason: null,
    ...over,
  }) as MoistureReading;

describe('when a flitch can be sawn', () => {
  it('green frame stock: at once, ends sealed (common practice); where a limit is set, by its readings', () => {
    expect(flitchDay(flitch({ use: 'frames' }), [reading('2027-03-01', 40)], settings, today).on).toBe(today);
    const strict = { ...settings, framesPercent: 25 } as TimberSettings;
    expect(flitchDay(flitch({ use: 'frames' }), [reading('2027-03-01', 40)], strict, today).on).toBeNull();
  });

  it('planking: on the day that its readings say, falling by halves towards rest (computed)', () => {
    // 16 above rest on 1 January, 8 above on 10 February: 6.75 above about ten days later, and 40 days a half.
    const wet = [reading('2027-03-01', 25.25), reading('2027-03-21', 21.25)];
    const { on, why } = flitchDay(flitch(), wet, settings, today);
    // ln(16 / 6.75) / (ln(16 / 12) / 20) = 60.0 days after the first.
    expect(on).toBe('2027-04-30');
    expect(why).toContain('21.25 percent');
  });

  it('not before it has come, however dry', () => {
    const promised = flitch({ expectedOn: '2027-05-08' });
    expect(flitchDay(promised, [reading('2027-03-01', 14)], settings, today).on).toBe('2027-05-08');
    expect(
      flitchDay(flitch({ expectedOn: '2027-03-20' }), [reading('2027-03-01', 14)], settings, today).on,
    ).toBe(today);
  });

  it('no day without a trend, nor from readings that were withdrawn', () => {
    const one = flitchDay(flitch(), [reading('2027-03-21', 22)], settings, today);
    expect(one).toMatchObject({ on: null, why: expect.stringContaining('second reading') as string });
    const withdrawn = [
      reading('2027-03-01', 14, { withdrawnReason: 'pins not driven' }),
      reading('2027-03-21', 22),
    ];
    expect(flitchDay(flitch(), withdrawn, settings, today).on).toBeNull();
  });

  it('of two readings on one day the one that was entered last counts, however they are listed', () => {
    const [wet, dry] = [
      reading('2027-03-21', 30, { id: 'moisture_1', enteredAt: 1 }),
      reading('2027-03-21', 14, { id: 'moisture_2', enteredAt: 2 }),
    ];
    for (const listed of [
      [wet, dry],
      [dry, wet],
    ]) {
      expect(flitchDay(flitch(), listed, settings, today).why).toBe('P1 is at 14 percent');
      expect(countedReadings(listed)).toEqual([dry]);
    }
    const withdrawn = { ...dry, withdrawnReason: 'of another flitch' };
    expect(flitchDay(flitch(), [withdrawn, wet], settings, today).why).toContain('30 percent');
  });

  it('no day where the air is too damp', () => {
    const damp = { ...settings, humidity: 0.95 };
    const wet = [reading('2027-03-01', 24), reading('2027-03-21', 22)];
    expect(flitchDay(flitch(), wet, damp, today)).toMatchObject({
      on: null,
      why: expect.stringContaining('rest') as string,
    });
  });
});

describe('when the wood for a piece can be sawn', () => {
  const piece = (key: string) => ({ key, name: key });
  const facts = (over: Partial<HoldFacts> = {}): HoldFacts => ({
    pieces: [piece('laid'), piece('wanting')],
    layUp: {
      madeOn: '2027-03-06',
      result: {
        placed: [{ pattern: 'laid', flitch: 'flitch_1', outline: [], turnedOver: false, runOut: 0 }],
        wanting: [{ pattern: 'wanting', why: 'no place with room and grain' }],
        stockUsed: 1,
        stockAtLeast: 1,
      },
    } as unknown as LayUpEntity,
    flitches: [flitch({ use: 'frames' })],
    readings: [],
    promises: [],
    settings,
    today,
    ...over,
  });

  it('laid up on stock that is here: today; without stock: after the usual time from when it was found wanting', () => {
    const days = pieceDays(facts());
    expect(days.get('laid')?.on).toBe(today);
    expect(days.get('wanting')).toMatchObject({
      on: '2027-05-01',
      why: expect.stringContaining('56 days') as string,
    });
  });

  it('without stock, promised: on the promised day', () => {
    const promise = { piece: 'wanting', expectedOn: '2027-04-17' } as HoldFacts['promises'][number];
    expect(pieceDays(facts({ promises: [promise] })).get('wanting')?.on).toBe('2027-04-17');
  });

  it('sawn up: no day any more; its flitch kept for a later job: as if there were none', () => {
    expect(pieceDays(facts({ flitches: [flitch({ usedOn: '2027-03-20' })] })).has('laid')).toBe(false);
    expect(pieceDays(facts({ flitches: [flitch({ reservedFor: 'the keelson' })] })).get('laid')?.on).toBe(
      '2027-05-01',
    );
  });
});
