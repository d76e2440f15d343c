import { randomUUID } from 'node:crypto';
import { EventEmitter } from 'node:events';
import type { Redis } from 'ioredis';
import type { EntityManager } from 'typeorm';
import { Database } from '../database/database.js';
import { log } from '../log/log.js';

/** A listener that reads so slowly loses its oldest news; each piece only says "look again". */
const maxWaiting = 1_000;

interface News {
  from: string;
  topic: string;
  payload: unknown;
}

/** Redis connections for a bus that reaches other processes: one that sends, one that listens. */
export interface BusWires {
  channel: string;
  send: Redis;
  receive: Redis;
}

/**
 * Carries news to whoever listens, in this process and, through Redis, in others. News may be lost; the records
 * are the truth.
 */
export class Bus {
  private readonly self = randomUUID();
  private readonly local = new EventEmitter();
  private readonly open = new Set<() => void>();

  constructor(private readonly wires: BusWires | null = null) {
    this.local.setMaxListeners(0);
    if (!wires) return;
    wires.receive.on('message', (_channel, text) => {
      this.take(text);
    });
    // The client subscribes again by itself after a lost connection.
    wires.receive.subscribe(wires.channel).catch((error: unknown) => {
      log.warn({ error }, 'news from other processes will come late');
    });
  }

  /** Tells everybody who listens to the topic. The payload must be plain JSON. */
  publish(topic: string, payload: unknown): void {
    this.local.emit(topic, payload);
    if (!this.wires) return;
    const news: News = { from: this.self, topic, payload };
    this.wires.send.publish(this.wires.channel, JSON.stringify(news)).catch((error: unknown) => {
      log.warn({ error, topic }, 'news did not reach other processes');
    });
  }

  /** Tells everybody once the manager's transaction has been committed. */
  publishAfter(manager: EntityManager, topic: string, payload: unknown): void {
    Database.afterCommit(manager, () => {
      this.publish(topic, payload);
    });
  }

  /** All news of a topic from now on, until the iterator is returned or the bus closes. */
  listen<T = unknown>(topic: string): AsyncIterableIterator<T> {
    const waiting: T[] = [];
    let wake: ((result: IteratorResult<T>) => void) | null = null;
    let isOver = false;
    const hear = (payload: T): void => {
      if (wake) {
        wake({ value: payload, done: false });
        wake = null;
        return;
      }
      waiting.push(payload);
      if (waiting.length > maxWaiting) waiting.shift();
    };
    const stop = (): void => {
      isOver = true;
      this.local.off(topic, hear);
      this.open.delete(stop);
      wake?.({ value: undefined, done: true });
      wake = null;
    };
    this.local.on(topic, hear);
    this.open.add(stop);
    return {
      [Symbol.asyncIterator]() {
        return this;
      },
      next() {
        const value = waiting.shift();
        if (value !== undefined) return Promise.resolve({ value, done: false });
        if (isOver) return Promise.resolve({ value: undefined, done: true });
        return new Promise<IteratorResult<T>>((resolve) => {
          wake = resolve;
        });
      },
      return() {
        stop();
        return Promise.resolve({ value: undefined, done: true });
      },
      throw(error: unknown) {
        stop();
        return Promise.reject(error instanceof Error ? error : new Error(String(error)));
      },
    };
  }

  /** Ends all listeners. */
  close(): void {
    for (const stop of [...this.open]) stop();
    this.local.removeAllListeners();
  }

  /** Lets go of Redis. */
  disconnect(): void {
    this.close();
    this.wires?.receive.disconnect();
    this.wires?.send.disconnect();
  }

  private take(text: string): void {
    let news: News;
    try {
      news = JSON.parse(text) as News;
    } catch (error) {
      log.warn({ error }, 'news that is not JSON');
      return;
    }
    if (news.from !== this.self) this.local.emit(news.topic, news.payload);
  }
}
