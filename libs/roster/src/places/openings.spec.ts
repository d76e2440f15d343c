import { type Caller } from '@ribband/access';
import { newId, RefusalError, scratchKinds } from '@ribband/platform';
import { HoldLift, HullElement, MarkReading, OpeningLimit, TaskOpening, WitnessMark } from '@ribband/repair';
import { hoursAt } from '../hours/hours.fixture.js';
import { TestYard } from '../roster.fixture.js';

async function refusal(work: Promise<unknown>): Promise<{ code: string; message: string } | 'yes'> {
  try {
    await work;
    return 'yes';
  } catch (error) {
    if (error instanceof RefusalError) return { code: error.refusal.code, message: error.refusal.message };
    throw error;
  }
}

describe.each(scratchKinds())('a place on work that opens the hull, on %s', (kind) => {
  let yard: TestYard;
  let hand: Caller;
  let turnoutId: string;
  let draw13: string;

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    hand = await yard.hand('hand-1');
    const hours = { startTime: '09:00', endTime: '14:00' };
    turnoutId = (await yard.at.turnouts.add(yard.caller('coordinator'), { on: '2027-03-06', ...hours })).id;
    draw13 = await yard.addTask('Frame 13: draw futtocks');
    const draw12 = await yard.addTask('Frame 12: draw futtocks', { startedOn: '2027-03-05' });
    const { organisationId } = yard;
    await yard.at.database.write(async (manager) => {
      const elements = [12, 13].map((frame) => ({
        id: newId('element'),
        organisationId,
        ref: `frame-${frame}`,
        name: `Frame ${frame}`,
        kind: 'frame' as const,
        side: 'starboard' as const,
        frame,
        strake: null,
      }));
      await manager.insert(HullElement, elements);
      const opens = [draw12, draw13].map((taskId, i) => ({
        id: newId('opening'),
        organisationId,
        taskId,
        elementId: elements[i]?.id ?? '',
        does: 'opens' as const,
      }));
      await manager.insert(TaskOpening, opens);
      await manager.insert(OpeningLimit, {
        id: newId('limit'),
        organisationId,
        ref: 'frames-12-and-13',
        version: 1,
        name: 'Frames 12 and 13',
        elementIds: elements.map(({ id }) => id),
        atMost: 1,
        basis: 'common practice',
        overrideBy: null,
        overrideReason: null,
        overriddenAt: null,
        overrideElementIds: null,
        overrideUntilOn: null,
      });
    });
  });
  afterEach(() => yard.close());

  const setAside = () =>
    yard.at.database.write((manager) =>
      manager.update(
        OpeningLimit,
        { organisationId: yard.organisationId },
        { overrideBy: 'Odalys Brenn', overrideReason: 'cross spalls stand' },
      ),
    );

  it('is refused while the frame next to it is out, is not listed, and is not posted', async () => {
    const place = await yard.addPlace({ turnoutId, taskId: draw13 });
    expect(await refusal(yard.at.places.take(hand, place.id))).toEqual({
      code: 'OPENING_LIMIT_REACHED',
      message: 'Frame 13 must wait: frame 12 is out.',
    });
    expect(await yard.at.open.permittedTo(hand)).toEqual([]);
    const { startsAt, endsAt } = place;
    const seat = { turnoutId, taskId: draw13, skillId: null, level: 0, volunteerId: null, startsAt, endsAt };
    const post = () =>
      yard.at.database.write((manager) =>
        yard.at.posting.post(manager, yard.organisationId, [turnoutId], [{ ...seat, why: null }], 'plan_1'),
      );
    const posted = await post();
    expect(posted.waits.flatMap(({ stops }) => stops.map(({ message }) => message))).toEqual([
      'Frame 13 must wait: frame 12 is out.',
    ]);
    expect(posted.added).toBe(0);
    await setAside();
    expect((await post()).waits).toEqual([]);
    const [open] = await yard.at.open.permittedTo(hand);
    expect(await refusal(yard.at.places.take(hand, open.place.id))).toBe('yes');
  });

  it('is not begun by signing on either, while the frame next to it is out', async () => {
    const book = hoursAt(yard.at);
    await book.clockAt(yard, '2027-03-06', '09:00');
    const on = () => book.signOns.on(hand, { volunteerId: null, taskId: draw13, from: null });
    expect(await refusal(on())).toMatchObject({ code: 'OPENING_LIMIT_REACHED' });
    await setAside();
    expect(await refusal(on())).toBe('yes');
  });

  it('is refused while a witness mark holds, and goes to whoever asks once the shipwright has lifted it', async () => {
    await setAside();
    const place = await yard.addPlace({ turnoutId, taskId: draw13 });
    const { organisationId } = yard;
    const markId = newId('mark');
    const reading = (
      time: 'after blocking' | 'later',
      millimetres: number,
      enteredAt: number,
      reader = 'Odalys Brenn',
    ) => ({
      id: newId('reading'),
      organisationId,
      markId,
      readOn: time === 'later' ? '2027-03-06' : '2027-03-05',
      time,
      reader,
      millimetres,
      enteredAt,
      enteredBy: 'Odalys Brenn',
      struckBy: null,
      struckReason: null,
    });
    await yard.at.database.write(async (manager) => {
      await manager.insert(WitnessMark, {
        id: markId,
        organisationId,
        ref: 'breadth-at-frame-15',
        name: 'Breadth at frame 15',
        kind: 'breadth',
        frame: 15,
        everyDays: 7,
        madeAt: 1,
      });
      await manager.insert(MarkReading, [
        ...['Odalys Brenn', 'Emeric Holloran'].flatMap((reader) =>
          [1, 1].map((at) => reading('after blocking', 5029.2, at, reader)),
        ),
        reading('later', 5036, 2),
      ]);
    });
    expect(await refusal(yard.at.places.take(hand, place.id))).toMatchObject({ code: 'SHAPE_HOLD' });
    await yard.at.database.write((manager) =>
      manager.insert(HoldLift, {
        id: newId('lift'),
        organisationId,
        markId,
        by: 'Odalys Brenn',
        reason: 'read again, the tape had sagged',
        liftedAt: 3,
      }),
    );
    expect(await refusal(yard.at.places.take(hand, place.id))).toBe('yes');
  });
});
