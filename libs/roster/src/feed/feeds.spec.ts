import { Audit } from '@ribband/access';
import { Config, RealClock, scratchKinds, YardClock } from '@ribband/platform';
import ICAL from 'ical.js';
import { TestYard } from '../roster.fixture.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { CalendarFeedEntity } from './feed.entity.js';
import { Feeds } from './feeds.service.js';

describe.each(scratchKinds())('A person’s calendar on %s', (kind) => {
  let yard: TestYard;
  let feeds: Feeds;
  let turnout: TurnoutEntity;
  beforeAll(async () => {
    yard = await TestYard.open(kind);
    const { database } = yard.at;
    const clock = new RealClock();
    feeds = new Feeds(database, clock, new YardClock(database, clock), Config.read({}), new Audit(clock));
    turnout = await yard.at.turnouts.add(yard.caller('coordinator'), {
      on: '2027-03-20',
      startTime: '09:00',
      endTime: '14:00',
    });
  });
  afterAll(() => yard.close());

  const tokenIn = (address: string) => /^\/calendar\/([\w-]{43})\.ics$/.exec(address)?.[1] ?? '';
  const eventsAt = async (token: string) => {
    const served = await feeds.serve(token);
    if (!served) return null;
    const calendar = new ICAL.Component(ICAL.parse(served.text) as unknown[]);
    return calendar.getAllSubcomponents('vevent').map((part) => ({
      uid: String(part.getFirstPropertyValue('uid')),
      sequence: Number(part.getFirstPropertyValue('sequence')),
      status: String(part.getFirstPropertyValue('status')),
      summary: String(part.getFirstPropertyValue('summary')),
    }));
  };

  it('follows a place from being asked over yes and no to the end, with one UID', async () => {
    const anselm = await yard.hand('anselm');
    const taskId = await yard.addTask('Saw a futtock');
    const place = await yard.addPlace({ turnoutId: turnout.id, taskId, volunteerId: anselm.volunteerId });
    const token = tokenIn(await feeds.make(anselm));
    const [asked] = (await eventsAt(token)) ?? [];
    expect(asked).toMatchObject({ sequence: 0, status: 'TENTATIVE', summary: 'Asked: Saw a futtock' });
    await yard.at.places.take(anselm, place.id);
    expect(await eventsAt(token)).toEqual([
      { uid: asked.uid, sequence: 1, status: 'CONFIRMED', summary: 'Saw a futtock' },
    ]);
    await yard.at.places.leave(anselm, place.id, null);
    expect(await eventsAt(token)).toMatchObject([{ uid: asked.uid, sequence: 2, status: 'CANCELLED' }]);
    expect(await eventsAt(token)).toMatchObject([{ sequence: 2 }]);
  });

  it('a turnout that is called off is cancelled in it', async () => {
    const hand = await yard.hand('hand-1');
    const second = await yard.at.turnouts.add(yard.caller('coordinator'), {
      on: '2027-03-27',
      startTime: '09:00',
      endTime: '14:00',
    });
    const taskId = await yard.addTask('Paint the bulwark');
    await yard.addPlace({
      turnoutId: second.id,
      taskId,
      volunteerId: hand.volunteerId,
      state: 'taken',
    });
    const token = tokenIn(await feeds.make(hand));
    expect(await eventsAt(token)).toMatchObject([{ status: 'CONFIRMED' }]);
    await yard.at.turnouts.cancel(yard.caller('coordinator'), second.id, second.version, 'A gale is coming.');
    expect(await eventsAt(token)).toMatchObject([{ status: 'CANCELLED', sequence: 1 }]);
  });

  it('a revoked address and one that was replaced answer nobody; only a hash is kept', async () => {
    const hand = await yard.hand('hand-2');
    const first = tokenIn(await feeds.make(hand));
    const second = tokenIn(await feeds.make(hand));
    expect(await feeds.serve(first)).toBeNull();
    expect(await feeds.serve(second)).not.toBeNull();
    const rows = await yard.at.database.read.find(CalendarFeedEntity);
    expect(JSON.stringify(rows)).not.toContain(second);
    await feeds.revoke(hand);
    expect(await feeds.serve(second)).toBeNull();
    expect(await feeds.state(hand)).toEqual({ isThere: false, madeAt: null, readAt: null });
  });

  it('shows where one stands by as tentative, and no more once one says no', async () => {
    const hand = await yard.hand('hand-4');
    const wanted = [{ turnoutId: turnout.id, volunteerId: hand.volunteerId ?? '' }];
    await yard.at.database.write((manager) =>
      yard.at.swing.post(manager, yard.organisationId, [turnout.id], wanted),
    );
    const token = tokenIn(await feeds.make(hand));
    expect(await eventsAt(token)).toMatchObject([{ status: 'TENTATIVE', summary: 'Standing by' }]);
    const [row] = await yard.at.swing.mine(hand);
    await yard.at.swing.leave(hand, row.id);
    expect(await eventsAt(token)).toMatchObject([{ status: 'CANCELLED', sequence: 1 }]);
  });

  it('shows one’s own places and nobody else’s', async () => {
    const token = tokenIn(await feeds.make(await yard.hand('hand-3')));
    expect(await eventsAt(token)).toEqual([]);
  });

  it('that has not changed has the same tag', async () => {
    const token = tokenIn(await feeds.make(await yard.hand('anselm')));
    expect((await feeds.serve(token))?.tag).toBe((await feeds.serve(token))?.tag);
  });
});
