import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { Bus } from '../bus/bus.js';
import { RealClock } from '../clock/real-clock.js';
import { YardClock } from '../clock/yard-clock.js';
import { Config } from '../config/config.js';
import { Database } from '../database/database.js';
import { newId } from '../ids/ids.js';
import { maySwitchOff, type MessageKind } from './message-kinds.js';
import { Message, MessageChoice } from './message.entity.js';
import { Postman } from './postman.js';

/** News in words: plain text, lines parted by \n. */
export interface Wording {
  /** One line of at most 150 characters or so. */
  subject: string;
  words: string;
  /** Where in the page one can do something about it, such as `/places`. */
  path?: string;
}

/** One piece of news for some people. */
export interface News extends Wording {
  organisationId: string;
  /** Ids of volunteers, accounts or guardians. */
  to: readonly string[];
  kind: MessageKind;
  /**
   * What makes this piece of news this one and no other, such as `called-off turnout_...`. It is told once to each
   * person, however often it is posted; put a version in where the same thing may happen again.
   */
  key: string;
  /** Whether the e-mail may go out in the quiet hours: only where tomorrow is too late. */
  evenAtNight?: boolean;
}

/** The topic on which pages hear that there is news. */
export const messageTopic = (organisationId: string): string => `messages:${organisationId}`;

/** What is told on it: for whom, and nothing of what. */
export interface MessageNews {
  recipientId: string;
}

const longestSubject = 200;
const longestWords = 10_000;

/**
 * Tells people things. News are written down in the transaction of the change that they tell of, so that neither is
 * kept without the other. In the page each is shown exactly once. An e-mail is sent at least once: where a process
 * dies between the mail server's yes and our own note of it, the mail goes again under the same Message-ID, by which
 * mail programs know it as the same.
 */
@Injectable()
export class Messages {
  constructor(
    @Inject(Config) private readonly config: Config,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(Postman) private readonly postman: Postman,
  ) {}

  /**
   * Writes news down for each person who has not had it yet.
   * @returns the ids of those for whom it is new
   */
  async post(manager: EntityManager, news: News): Promise<string[]> {
    const { organisationId, kind, key } = news;
    const now = this.clock.now();
    const postedAt = await this.yardClock.now(organisationId, manager);
    const told: string[] = [];
    for (const recipientId of new Set(news.to)) {
      if (await manager.existsBy(Message, { organisationId, recipientId, key })) continue;
      const choice = await manager.findOneBy(MessageChoice, { recipientId, kind });
      const isOff = choice?.way === 'off' && maySwitchOff(kind);
      const isMailed = this.config.mail !== null && !isOff && (choice?.way ?? 'email') === 'email';
      const row: Message = {
        id: newId('message'),
        organisationId,
        recipientId,
        kind,
        key,
        subject: oneLine(news.subject).slice(0, longestSubject),
        words: news.words.trim().slice(0, longestWords),
        path: news.path ?? null,
        isShown: !isOff,
        postedAt,
        readAt: null,
        mail: isMailed ? 'waiting' : 'none',
        evenAtNight: news.evenAtNight ?? false,
        dueAt: now,
        tries: 0,
        tryId: null,
        leaseUntil: null,
        sentAt: null,
        trouble: null,
      };
      // Of two who write the same at once PostgreSQL lets one try again, who then finds it above.
      await manager.createQueryBuilder().insert().into(Message).values(row).orIgnore().execute();
      told.push(recipientId);
      if (!isOff)
        this.bus.publishAfter(manager, messageTopic(organisationId), { recipientId } satisfies MessageNews);
    }
    if (told.length > 0)
      Database.afterCommit(manager, () => {
        this.postman.wake();
      });
    return told;
  }
}

/** A subject is one line: what follows a line break would be read as a header. */
function oneLine(text: string): string {
  return text.replace(/[\s\p{Cc}]+/gu, ' ').trim();
}
