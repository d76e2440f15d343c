import { Inject, Injectable } from '@nestjs/common';
import { LessThanOrEqual, type EntityManager } from 'typeorm';
import { RealClock } from '../clock/real-clock.js';
import { Config } from '../config/config.js';
import { Database } from '../database/database.js';
import { newId } from '../ids/ids.js';
import { log } from '../log/log.js';
import { inWords, LetterRefused, MailServer } from './mail-server.js';
import { Message, MessageChoice, QuietHours } from './message.entity.js';
import { afterQuietTime, usualQuietTime } from './quiet-time.js';
import { Recipients } from './recipients.js';

/** How long a try has a letter in hand: far longer than the longest try. */
const leaseMillis = 5 * 60_000;
const sweepMillis = 10_000;
const roundMillis = 60 * 60_000;
/** Waits of 1, 4, 16 and 64 minutes, then every six hours: the last try is about a day after the first. */
const maxTries = 8;
const longestWaitMillis = 6 * 60 * 60_000;
const atOnce = 50;

export const waitAfter = (tries: number): number =>
  Math.min(60_000 * 4 ** Math.max(0, tries - 1), longestWaitMillis);

/** Work that looks for news which no change of records brings about, such as a card that runs out. */
export type Round = () => Promise<void>;

/** What a try came to. */
export type Delivered = 'sent' | 'held' | 'none' | 'again' | 'dead' | 'not ours';

/**
 * Sends the e-mails of messages. Any number of processes may do so: a letter is taken in hand by one statement, so
 * that one of them sends it.
 */
@Injectable()
export class Postman {
  private readonly server: MailServer | null;
  private readonly rounds = new Map<string, Round>();
  private timers: NodeJS.Timeout[] = [];
  private underWay: Promise<void> = Promise.resolve();
  private isWaiting = false;
  private isRunning = false;

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Config) private readonly config: Config,
    @Inject(Recipients) private readonly recipients: Recipients,
  ) {
    this.server = config.mail ? new MailServer(config.mail) : null;
  }

  /** Has some work done at the start and every hour, by each process that sends: keys keep news from doubling. */
  everyHour(name: string, round: Round): void {
    if (this.rounds.has(name)) throw new Error(`Two rounds are called ${name}`);
    this.rounds.set(name, round);
  }

  /** Begins to send, in a process that computes. */
  start(): void {
    this.isRunning = true;
    this.timers = [
      setInterval(() => {
        this.wake();
      }, sweepMillis),
      setInterval(() => {
        this.goRound();
      }, roundMillis),
    ];
    this.goRound();
    this.wake();
  }

  /** Comes to an end; the letter in hand is finished. */
  async close(): Promise<void> {
    this.isRunning = false;
    for (const timer of this.timers) clearInterval(timer);
    await this.underWay;
  }

  /** Looks for letters soon. */
  wake(): void {
    if (!this.isRunning || this.isWaiting || !this.server) return;
    this.isWaiting = true;
    this.afterThat(async () => {
      this.isWaiting = false;
      await this.sendDue();
    }, 'could not send what is due');
  }

  /** Tries every letter that is due. @returns what each try came to */
  async sendDue(): Promise<Delivered[]> {
    const due = await this.due();
    const came: Delivered[] = [];
    for (const { id } of due) came.push(await this.deliver(id));
    return came;
  }

  private goRound(): void {
    for (const [name, round] of this.rounds) this.afterThat(round, `the round "${name}" broke off`);
  }

  /** Not called `then`: a service with one is taken for a promise, and the house waits for it for ever. */
  private afterThat(work: () => Promise<unknown>, trouble: string): void {
    this.underWay = this.underWay.then(async () => {
      if (!this.isRunning) return;
      try {
        await work();
      } catch (error) {
        // The rows are as they were; the next look finds them again.
        log.warn({ error }, trouble);
      }
    });
  }

  private due(): Promise<Pick<Message, 'id'>[]> {
    const now = this.clock.now();
    return this.database.read.find(Message, {
      select: { id: true },
      where: [
        { mail: 'waiting', dueAt: LessThanOrEqual(now) },
        { mail: 'sending', leaseUntil: LessThanOrEqual(now) },
      ],
      order: { dueAt: 'ASC', id: 'ASC' },
      take: atOnce,
    });
  }

  private async deliver(id: string): Promise<Delivered> {
    if (!this.server) return 'none';
    const tryId = newId('try');
    const ready = await this.database.write((manager) => this.takeInHand(manager, id, tryId));
    if (typeof ready === 'string') return ready;
    const { message, to, signsIn } = ready;
    try {
      await this.server.send({
        messageId: `<${message.id}@${this.config.mail?.host ?? 'ribband'}>`,
        to,
        subject: message.subject,
        text: letterText(message, this.config.publicUrl, signsIn),
      });
    } catch (error) {
      const isOver = error instanceof LetterRefused || message.tries >= maxTries;
      log.warn({ messageId: id, tries: message.tries, trouble: inWords(error) }, 'an e-mail did not go out');
      await this.settle(id, tryId, {
        mail: isOver ? 'dead' : 'waiting',
        dueAt: this.clock.now() + waitAfter(message.tries),
        trouble: inWords(error),
      });
      return isOver ? 'dead' : 'again';
    }
    await this.settle(id, tryId, { mail: 'sent', sentAt: this.clock.now(), trouble: null });
    return 'sent';
  }

  /** Takes the letter for this try, unless another has it or it is not to go out now. */
  private async takeInHand(
    manager: EntityManager,
    id: string,
    tryId: string,
  ): Promise<Delivered | { message: Message; to: { name: string; address: string }; signsIn: boolean }> {
    const now = this.clock.now();
    const message = await manager.findOneBy(Message, { id });
    const isFree =
      message &&
      ((message.mail === 'waiting' && message.dueAt <= now) ||
        (message.mail === 'sending' && (message.leaseUntil ?? 0) <= now));
    if (!isFree) return 'not ours';
    const { organisationId, recipientId, kind } = message;
    const contact = await this.recipients.find(manager, organisationId, recipientId);
    const choice = await manager.findOneBy(MessageChoice, { recipientId, kind });
    if (!contact?.email || (choice?.way ?? 'email') !== 'email') {
      await manager.update(Message, { id }, { mail: 'none', leaseUntil: null, tryId: null });
      return 'none';
    }
    const quiet = (await manager.findOneBy(QuietHours, { organisationId })) ?? usualQuietTime;
    const dueAt = message.evenAtNight ? now : afterQuietTime(now, quiet, contact.timeZone);
    if (dueAt > now) {
      await manager.update(Message, { id }, { mail: 'waiting', dueAt, leaseUntil: null, tryId: null });
      return 'held';
    }
    const taken = {
      mail: 'sending' as const,
      tryId,
      tries: message.tries + 1,
      leaseUntil: now + leaseMillis,
    };
    // On PostgreSQL two that read the same row cannot both change it: transactions are serializable.
    const { affected } = await manager
      .createQueryBuilder()
      .update(Message)
      .set(taken)
      .where({ id, mail: message.mail, tries: message.tries })
      .execute();
    if (affected !== 1) return 'not ours';
    const { name, email: address, signsIn = true } = contact;
    return { message: { ...message, ...taken }, to: { name, address }, signsIn };
  }

  /** Notes what came of a try, if the letter is still this try's. */
  private async settle(id: string, tryId: string, change: Partial<Message>): Promise<void> {
    await this.database.write(async (manager) => {
      await manager.update(
        Message,
        { id, tryId, mail: 'sending' },
        { ...change, tryId: null, leaseUntil: null },
      );
    });
  }
}

function letterText(message: Message, publicUrl: string | null, signsIn: boolean): string {
  const lines = [message.words];
  if (publicUrl && message.path) lines.push('', `${publicUrl}${message.path}`);
  lines.push('', '-- ', 'Sent by the yard’s own program.');
  lines.push(
    !signsIn
      ? 'If you would rather not be written to, tell the yard.'
      : publicUrl
        ? `Choose what you are written about: ${publicUrl}/news`
        : 'Choose what you are written about on its page “News”.',
  );
  return `${lines.join('\n')}\n`;
}
