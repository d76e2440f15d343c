import { setTimeout as pause } from 'node:timers/promises';
import { connectRedis } from '../redis/redis.js';
import { newId } from '../ids/ids.js';
import { Bus } from './bus.js';

describe('news within a process', () => {
  it('reach all who listen to the topic, in order, and nobody else', async () => {
    const bus = new Bus();
    const first = bus.listen<number>('turnouts');
    const second = bus.listen<number>('turnouts');
    const other = bus.listen<number>('plans');
    for (const piece of [1, 2, 3]) bus.publish('turnouts', piece);
    for (const listener of [first, second]) {
      for (const piece of [1, 2, 3]) expect(await listener.next()).toEqual({ value: piece, done: false });
    }
    bus.close();
    expect(await other.next()).toEqual({ value: undefined, done: true });
  });

  it('wake a listener that waits, and let it go when it leaves', async () => {
    const bus = new Bus();
    const listener = bus.listen<string>('turnouts');
    const waiting = listener.next();
    bus.publish('turnouts', 'called off');
    expect(await waiting).toEqual({ value: 'called off', done: false });
    const last = listener.next();
    await listener.return?.();
    expect(await last).toEqual({ value: undefined, done: true });
    bus.close();
  });

  it('do not pile up for a listener that never reads', async () => {
    const bus = new Bus();
    const listener = bus.listen<number>('turnouts');
    for (let piece = 0; piece < 5_000; piece++) bus.publish('turnouts', piece);
    const { value } = (await listener.next()) as { value: number };
    expect(value).toBe(4_000);
    bus.close();
  });
});

const redisUrl = process.env['TEST_REDIS_URL'] ?? process.env['REDIS_URL'];
if (!redisUrl && process.env['REQUIRE_ALL'] === '1') throw new Error('TEST_REDIS_URL is missing');

(redisUrl ? describe : describe.skip)('news between processes', () => {
  const open = (channel: string): Bus =>
    new Bus({
      channel,
      send: connectRedis(redisUrl ?? '', 'fail fast'),
      receive: connectRedis(redisUrl ?? '', 'retry for ever'),
    });

  it('reach the others once, and the one who tells them once', async () => {
    const channel = newId('news');
    const here = open(channel);
    const there = open(channel);
    const heardHere: unknown[] = [];
    const heardThere: unknown[] = [];
    const gather = async (bus: Bus, into: unknown[], topic = 'plans'): Promise<void> => {
      for await (const piece of bus.listen(topic)) into.push(piece);
    };
    const gathering = Promise.all([gather(here, heardHere), gather(there, heardThere)]);
    // Redis takes its time to let a listener in: until there hears a call, news to it may be lost.
    const heardCalls: unknown[] = [];
    const calls = gather(there, heardCalls, 'calls');
    for (const end = Date.now() + 10_000; heardCalls.length === 0 && Date.now() < end;) {
      here.publish('calls', 'are you there?');
      await pause(50);
    }
    here.publish('plans', { revision: 7 });
    for (const end = Date.now() + 10_000; heardThere.length === 0 && Date.now() < end;) await pause(50);
    // Long enough for a second copy to come, if there were one.
    await pause(300);
    here.disconnect();
    there.disconnect();
    await Promise.all([gathering, calls]);
    expect(heardHere).toEqual([{ revision: 7 }]);
    expect(heardThere).toEqual([{ revision: 7 }]);
  });
});
