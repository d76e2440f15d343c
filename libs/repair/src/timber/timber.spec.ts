import { YardDay } from '@ribband/crew';
import { addDays, ComputeJob, newId, scratchKinds } from '@ribband/platform';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { renew, startingMethods, surveyOf } from '../methods/hull-yard.fixture.js';
import { Work } from '../methods/work.service.js';
import { openSmallYard, refusalOf, type SmallYard } from '../repair.fixture.js';
import { Shapes } from '../shape/shapes.service.js';
import { TimberBooks } from './book.service.js';
import { deliveryDelays } from './deliveries.js';
import { LayUps } from './lay-ups.service.js';
import { MoistureReading } from './moisture-reading.entity.js';
import { NewPieces } from './new-pieces.js';
import { StockPromise } from './stock-promise.entity.js';
import { TimberRules } from './settings.service.js';
import { Stock } from './stock.service.js';
import type { FlitchInput } from './stock.inputs.js';

const c1a: FlitchInput = {
  mark: 'C1a',
  species: 'Douglas fir',
  use: 'frames',
  thickness: 127,
  length: 2400,
  widths: [600, 550, 500],
  sweep: 300,
  sapwood: 20,
  defects: [{ along: 500, across: 100, length: 100, width: 80 }],
};

describe.each(scratchKinds())('the timber book on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const read = async () => {
    const book = await yard.get(TimberBooks).read(await yard.as('shipwright'));
    if (!book) throw new Error('there is no book');
    return book;
  };

  it('keeps a flitch as it was taped, and an edit that carries the version that was read', async () => {
    const shipwright = await yard.as('shipwright');
    const kept = await yard.get(Stock).keepFlitch(shipwright, c1a);
    const again = { ...c1a, id: kept.id, version: 1, lies: 'under the east eave' };
    await yard.get(Stock).keepFlitch(shipwright, again);
    expect((await read()).flitches).toMatchObject([{ mark: 'C1a', lies: 'under the east eave', version: 2 }]);
    expect((await refusalOf(yard.get(Stock).keepFlitch(shipwright, again))).code).toBe('CHANGED_MEANWHILE');
  });

  it('knows by how much stock came late: against the first promise, each delivery once', async () => {
    const shipwright = await yard.as('shipwright');
    const stock = yard.get(Stock);
    const { organisationId } = shipwright;
    const today = await yard.get(YardDay).today(organisationId);
    const delays = async () =>
      (await deliveryDelays(yard.database.read, organisationId, today)).sort((a, b) => a - b);
    const [early, late] = [addDays(today, -10), addDays(today, 30)];
    const promised = { expectedOn: early };
    const [one, two] = await Promise.all(
      ['D1', 'D2'].map((mark) => stock.keepFlitch(shipwright, { ...c1a, ...promised, mark })),
    );
    await stock.keepFlitch(shipwright, { ...c1a, mark: 'D3', expectedOn: late });
    for (const slip of ['0027-04-01', '2072-04-01'])
      expect(
        await refusalOf(stock.keepFlitch(shipwright, { ...c1a, mark: 'D4', expectedOn: slip })),
      ).toMatchObject({ code: 'BAD_INPUT', field: 'expectedOn' });
    // Nobody has said otherwise: it is taken to have come on its day.
    expect(await delays()).toEqual([0]);
    const putOff = { ...c1a, mark: 'D1', id: one.id, version: 1, expectedOn: late };
    await stock.keepFlitch(shipwright, putOff);
    expect(await delays()).toEqual([0, 40]);
    for (const [{ id }, mark, version] of [
      [one, 'D1', 2],
      [two, 'D2', 1],
    ] as const)
      await stock.keepFlitch(shipwright, { ...c1a, mark, id, version, expectedOn: null });
    expect(await delays()).toEqual([10]);
  });

  it('counts promises of pieces without stock as deliveries too, those of one day together', async () => {
    const { organisationId } = await yard.as('shipwright');
    const today = await yard.get(YardDay).today(organisationId);
    const promise = (piece: string, promisedOn: string | null, expectedOn: string) =>
      yard.database.write((manager) =>
        manager.insert(StockPromise, {
          ...{ id: newId('stockpromise'), organisationId, piece, promisedOn, expectedOn },
          ...{ note: null, enteredBy: 'Odalys Brenn' },
        }),
      );
    await promise('A', addDays(today, -10), addDays(today, 4));
    await promise('B', addDays(today, -10), addDays(today, 4));
    await promise('C', addDays(today, -3), addDays(today, -3));
    // A year that was mistyped once, as older records may have it.
    await promise('F', '0027-04-01', addDays(today, 4));
    // Neither tells anything yet: the first day promised is still ahead.
    await promise('D', addDays(today, 7), addDays(today, 7));
    await promise('E', null, addDays(today, 7));
    expect(await deliveryDelays(yard.database.read, organisationId, today)).toEqual([14, 0]);
  });

  it('refuses what cannot be, naming the field, and writes nothing', async () => {
    const shipwright = await yard.as('shipwright');
    const stock = yard.get(Stock);
    const refused = async (work: Promise<unknown>) => {
      const { code, field } = await refusalOf(work);
      return [code, field];
    };
    expect(await refused(stock.keepFlitch(shipwright, { ...c1a, widths: [600, 0] }))).toEqual([
      'BAD_INPUT',
      'input.widths[1]',
    ]);
    expect(await refused(stock.keepFlitch(shipwright, { ...c1a, mark: ' ' }))).toEqual(['BAD_INPUT', 'mark']);
    expect(await refused(stock.keepFlitch(shipwright, { ...c1a, logId: 'timberlog_none' }))).toEqual([
      'NOT_FOUND',
      'logId',
    ]);
    expect((await read()).flitches).toEqual([]);
    const { id } = await stock.keepFlitch(shipwright, c1a);
    expect(await refused(stock.keepFlitch(shipwright, c1a))).toEqual(['ALREADY_EXISTS', 'mark']);
    expect(await refused(stock.noteMoisture(shipwright, id, '2027-04-01', 20))).toEqual(['BAD_INPUT', 'on']);
    expect(await refused(stock.noteMoisture(shipwright, id, '2027-03-20', 0))).toEqual([
      'BAD_INPUT',
      'percent',
    ]);
  });

  it('a reading is withdrawn once, and the first reason stays', async () => {
    const shipwright = await yard.as('shipwright');
    const stock = yard.get(Stock);
    const flitch = await stock.keepFlitch(shipwright, c1a);
    const { id } = await stock.noteMoisture(shipwright, flitch.id, '2027-03-20', 20);
    await stock.withdrawMoisture(shipwright, id, 'pins not driven');
    expect((await refusalOf(stock.withdrawMoisture(shipwright, id, 'a wet day'))).code).toBe(
      'CHANGED_MEANWHILE',
    );
    expect(await yard.database.read.findOneBy(MoistureReading, { id })).toMatchObject({
      withdrawnReason: 'pins not driven',
    });
  });

  it('says why a lay-up failed, until the next is asked for', async () => {
    const shipwright = await yard.as('shipwright');
    await yard.get(Work).apply(shipwright, surveyed(9));
    const { id } = await yard.get(LayUps).ask(shipwright);
    expect(await read()).toMatchObject({ isLayingUp: true, layUpFailure: null });
    await yard.database.write((manager) =>
      manager.update(ComputeJob, { id }, { state: 'failed', message: 'The thread ended.' }),
    );
    expect(await read()).toMatchObject({ isLayingUp: false, layUpFailure: 'The thread ended.' });
    await yard.get(LayUps).ask(shipwright);
    expect(await read()).toMatchObject({ isLayingUp: true, layUpFailure: null });
  });

  it('is kept by shipwright and coordinator, and read by all', async () => {
    const volunteer = await yard.as('volunteer', 'marguerite-alkin');
    expect((await refusalOf(yard.get(Stock).keepFlitch(volunteer, c1a))).code).toBe('NOT_PERMITTED');
    expect(await yard.get(TimberBooks).read(volunteer)).not.toBeNull();
  });

  it('another yard’s entries are not there', async () => {
    const shipwright = await yard.as('shipwright');
    const { id } = await yard.get(Stock).keepFlitch(shipwright, c1a);
    await yard.renew();
    const stranger = await yard.as('shipwright');
    const { code } = await refusalOf(yard.get(Stock).noteMoisture(stranger, id, '2027-03-20', 20));
    expect(code).toBe('NOT_FOUND');
    expect((await read()).flitches).toEqual([]);
  });

  const surveyed = (frame: number) => ({
    survey: { value: surveyOf([renew(frame, frame + 1)]), version: null },
    methods: { value: startingMethods, version: null },
    reason: null,
  });
  const sections = (count: number) =>
    Array.from({ length: count }, (_, index) => ({
      at: -600 + 2400 * index,
      points: [0, 1, 2, 3, 4, 5, 6].map((step) => ({
        height: 3000 - 2600 * Math.cos((Math.PI * step) / 12),
        breadth: 2600 * Math.sin((Math.PI * step) / 12),
      })),
    }));
  const offsets = (count: number) => ({
    by: 'offsets',
    sections: sections(count),
    surface: 'outside of frames',
  });

  it('new wood has a shape where her sections reach, and is on the list without one elsewhere', async () => {
    const shipwright = await yard.as('shipwright');
    await yard.get(Work).apply(shipwright, surveyed(9));
    // Frame 9 stands 4064 mm aft of frame 1, frame 10 half a step further; the last section lies at 4200.
    await yard.get(Shapes).enter(shipwright, offsets(3), null);
    const wood = (await read()).wood.filter((one) => one.use === 'frames');
    expect(wood.map((one) => [one.piece.startsWith('frame-9-'), one.shape !== null])).toEqual(
      wood.map((one) => [one.piece.startsWith('frame-9-'), one.piece.startsWith('frame-9-')]),
    );
    expect(new Set(wood.map((one) => one.shape === null)).size).toBe(2);
  });

  it('refuses a shape that no hull has', async () => {
    const flat = sections(9).map(({ at, points }) => ({
      at,
      points: points.map((point) => ({ ...point, height: 0 })),
    }));
    const entered = yard
      .get(Shapes)
      .enter(await yard.as('shipwright'), { ...offsets(9), sections: flat }, null);
    expect(await refusalOf(entered)).toMatchObject({ code: 'BAD_INPUT', field: 'shape.sections[0].points' });
  });

  it('new wood follows what is written down, not a change that was broken off', async () => {
    const shipwright = await yard.as('shipwright');
    const { organisationId } = shipwright;
    const haulOut = (await haulOutInForce(yard.database.read, organisationId))!;
    const frames = async (manager = yard.database.read) => {
      const { pieces } = await yard.get(NewPieces).of(manager, haulOut);
      return new Set(pieces.map((piece) => /^frame-\d+/.exec(piece.key)?.[0]));
    };
    await yard.get(Work).apply(shipwright, surveyed(30));
    const again = (frame: number) => ({
      survey: { value: surveyOf([renew(frame, frame + 1)]), version: 1 },
      reason: 'drilled again',
    });
    const broken = yard.database.write(async (manager) => {
      await yard.get(Work).applyIn(manager, shipwright, again(9));
      expect(await frames(manager)).toContain('frame-9');
      throw new Error('the disk is full');
    });
    await expect(broken).rejects.toThrow('the disk is full');
    await yard.get(Work).apply(shipwright, again(20));
    expect(await frames()).toEqual(new Set(['frame-20', 'frame-21']));
  });

  it('settings are changed by the shipwright with a reason, within what can be', async () => {
    const shipwright = await yard.as('shipwright');
    const rules = yard.get(TimberRules);
    expect((await read()).settings).toMatchObject({ version: 0, plankingPercent: 16, usableShare: 0.85 });
    const changed = await rules.change(shipwright, 0, { usableShare: 0.8 }, 'measured on six logs of ours');
    expect(changed).toMatchObject({ version: 1, usableShare: 0.8, changedBy: 'The shipwright' });
    const refused = async (input: Parameters<TimberRules['change']>[2], reason: string) =>
      (await refusalOf(rules.change(shipwright, 1, input, reason))).field;
    expect(await refused({ usableShare: 1.2 }, 'hopeful')).toBe('usableShare');
    expect(await refused({ usableShare: 0.9 }, ' ')).toBe('reason');
    expect(await refused({}, 'nothing')).toBe('input');
  });

  it('counts the hours of a search trip for everybody who went, and thanks whoever gave', async () => {
    const coordinator = await yard.as('coordinator');
    const stock = yard.get(Stock);
    const ids = await Promise.all(['anselm-druitt', 'marguerite-alkin'].map((ref) => yard.idOf(ref)));
    const trip = { wentOn: '2027-03-20', whereTo: 'the creek slope', minutes: 240, volunteerIds: ids };
    await stock.keepTrip(coordinator, trip);
    expect((await read()).trips).toMatchObject([{ minutes: 240, volunteerIds: ids }]);
    const { id } = await stock.keepSource(coordinator, { name: 'Hollin Creek Woodlot', kind: 'gift' });
    expect(await stock.thank(coordinator, id, null)).toMatchObject({
      thankedOn: '2027-03-27',
      thankedBy: 'The coordinator',
    });
  });
});
