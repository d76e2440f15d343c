import { Audit, permit, type Caller } from '@ribband/access';
import {
  Config,
  Database,
  isTime,
  maySwitchOff,
  Message,
  MessageChoice,
  type MessageKind,
  messageKindNames,
  messageKinds,
  type MessageWay,
  newId,
  Postman,
  QuietHours,
  type QuietTime,
  RealClock,
  Recipients,
  refuse,
  usualQuietTime,
} from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull } from 'typeorm';
import type { DeadLetter, MessageChoiceType, NewsType, YardMailPayload } from './news.types.js';

const mostShown = 100;

/** What people have been told, and how they want to be told. */
@Injectable()
export class NewsDesk {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Config) private readonly config: Config,
    @Inject(Recipients) private readonly recipients: Recipients,
    @Inject(Postman) private readonly postman: Postman,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /** The caller's own: nobody reads another's news. */
  async of(caller: Caller): Promise<NewsType> {
    const where = { organisationId: caller.organisationId, recipientId: In(idsOf(caller)), isShown: true };
    const order = { postedAt: 'DESC', id: 'DESC' } as const;
    const messages = await this.database.read.find(Message, { where, order, take: mostShown });
    const unread = await this.database.read.countBy(Message, { ...where, readAt: IsNull() });
    return { messages, unread, choices: await this.choices(caller), isMailSetUp: this.config.mail !== null };
  }

  /** Marks some of the caller's news as read, or all of them. */
  async markRead(caller: Caller, ids: readonly string[] | null): Promise<void> {
    await this.database.write(async (manager) => {
      await manager.update(
        Message,
        {
          organisationId: caller.organisationId,
          recipientId: In(idsOf(caller)),
          readAt: IsNull(),
          ...(ids ? { id: In([...ids]) } : {}),
        },
        { readAt: this.clock.now() },
      );
    });
  }

  /** Says how the caller wants to be told of one kind of news. */
  async choose(caller: Caller, kind: MessageKind, way: MessageWay): Promise<void> {
    if (way === 'off' && !maySwitchOff(kind))
      refuse('BAD_INPUT', 'This is about safety, and is told always.', {
        field: 'way',
        remedy: 'You can keep it to the page, without e-mail.',
      });
    const { organisationId } = caller;
    await this.database.write(async (manager) => {
      for (const recipientId of idsOf(caller)) {
        await manager.delete(MessageChoice, { recipientId, kind });
        await manager.insert(MessageChoice, { id: newId('choice'), organisationId, recipientId, kind, way });
      }
    });
  }

  /** What could not be delivered, and when the yard is quiet: for those who run it. */
  async yardMail(caller: Caller): Promise<YardMailPayload> {
    permit(caller, 'director', 'coordinator');
    const { organisationId } = caller;
    const { read } = this.database;
    const dead = await read.find(Message, {
      where: { organisationId, mail: 'dead' },
      order: { postedAt: 'DESC', id: 'DESC' },
      take: mostShown,
    });
    const deadLetters: DeadLetter[] = [];
    for (const { id, recipientId, subject, postedAt, tries, trouble } of dead) {
      const contact = await this.recipients.find(read, organisationId, recipientId);
      deadLetters.push({
        id,
        name: contact?.name ?? 'somebody who is gone',
        subject,
        postedAt,
        tries,
        trouble,
      });
    }
    const quietHours = (await read.findOneBy(QuietHours, { organisationId })) ?? usualQuietTime;
    return { quietHours, deadLetters };
  }

  /** Tries a letter once more that could not be delivered, when its address was put right. */
  async sendAgain(caller: Caller, id: string): Promise<void> {
    permit(caller, 'director', 'coordinator');
    const { organisationId } = caller;
    await this.database.write(async (manager) => {
      const letter = await manager.findOneBy(Message, { id, organisationId, mail: 'dead' });
      if (!letter)
        return refuse('NOT_FOUND', 'There is no such letter that could not be delivered.', { field: 'id' });
      const afresh = { mail: 'waiting' as const, tries: 0, dueAt: this.clock.now(), trouble: null };
      await manager.update(Message, { id }, afresh);
      await this.audit.note(manager, caller, 'sendAgain', id);
    });
    this.postman.wake();
  }

  async setQuietHours(caller: Caller, wanted: QuietTime): Promise<void> {
    permit(caller, 'director', 'coordinator');
    for (const field of ['fromTime', 'toTime'] as const)
      if (!isTime(wanted[field]))
        refuse('BAD_INPUT', `"${wanted[field]}" is not a time of day.`, {
          field,
          remedy: 'Write a time such as 21:00.',
        });
    const { organisationId } = caller;
    await this.database.write(async (manager) => {
      await manager.upsert(QuietHours, { organisationId, ...wanted }, ['organisationId']);
      await this.audit.note(manager, caller, 'setQuietHours', null, { ...wanted });
    });
  }

  private async choices(caller: Caller): Promise<MessageChoiceType[]> {
    const rows = await this.database.read.findBy(MessageChoice, { recipientId: In(idsOf(caller)) });
    return messageKindNames.map((kind) => ({
      kind,
      about: messageKinds[kind].about,
      way: rows.find((row) => row.kind === kind)?.way ?? 'email',
      maySwitchOff: maySwitchOff(kind),
    }));
  }
}

/** Under which ids somebody is told things: their entry in the crew, and their account. */
export function idsOf(caller: Pick<Caller, 'accountId' | 'volunteerId'>): string[] {
  return [...(caller.volunteerId === null ? [] : [caller.volunteerId]), caller.accountId];
}
