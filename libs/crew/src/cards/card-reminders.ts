import { addDays, Database, daysBetween, Messages, Postman } from '@ribband/platform';
import { Organisation } from '@ribband/access';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import { Between } from 'typeorm';
import { YardDay } from '../yard/yard-day.js';
import { CardKind } from './card-kind.entity.js';
import { CardEntity } from './card.entity.js';

/** Days before its last one on which the holder of a card is told: in time to renew it, and once more near the end. */
const toldBefore = [30, 7];

/** Tells people that a card of theirs runs out soon. No change of records brings that about, so it is looked for. */
@Injectable()
export class CardReminders implements OnModuleInit {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Messages) private readonly messages: Messages,
    @Inject(Postman) private readonly postman: Postman,
  ) {}

  onModuleInit(): void {
    this.postman.everyHour('cards that run out', () => this.look());
  }

  /** Posts what is due, once for each card and time before its end; a card that was renewed is passed over. */
  async look(): Promise<void> {
    for (const { id } of await this.database.read.find(Organisation, { select: { id: true } }))
      await this.lookIn(id);
  }

  private async lookIn(organisationId: string): Promise<void> {
    const { read } = this.database;
    const today = await this.yardDay.today(organisationId);
    const until = addDays(today, Math.max(...toldBefore));
    const ending = await read.findBy(CardEntity, { organisationId, expiresOn: Between(today, until) });
    if (ending.length === 0) return;
    const all = await read.findBy(CardEntity, { organisationId });
    const kinds = new Map(
      (await read.findBy(CardKind, { organisationId })).map(({ id, name }) => [id, name]),
    );
    const lasting = ending.filter(
      (card) =>
        !all.some(
          (other) =>
            other.volunteerId === card.volunteerId &&
            other.kindId === card.kindId &&
            (other.expiresOn === null || other.expiresOn > until),
        ),
    );
    await this.database.write(async (manager) => {
      for (const { id, volunteerId, kindId, expiresOn } of lasting) {
        if (expiresOn === null) continue;
        const left = daysBetween(today, expiresOn);
        const at = Math.min(...toldBefore.filter((days) => left <= days));
        const name = kinds.get(kindId) ?? 'A card';
        await this.messages.post(manager, {
          organisationId,
          to: [volunteerId],
          kind: 'card-expiring',
          key: `card ${id} ${String(at)}`,
          subject: `Your card "${name}" lapses on ${expiresOn}`,
          words: `It counts up to and including ${expiresOn}. Work that asks for it stops for you the day after: renew it in time, and show the new one to the coordinator.`,
          path: '/days',
        });
      }
    });
  }
}
