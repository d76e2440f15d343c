import { Audit, permit, type Caller } from '@ribband/access';
import { Database, isDay, lastDay, newId, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import { volunteerOf } from '../volunteers/volunteers.service.js';
import { CardKind } from './card-kind.entity.js';
import { CardEntity } from './card.entity.js';

/** Cards that people have shown. */
@Injectable()
export class Cards {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  async add(
    caller: Caller,
    shown: { volunteerId: string; kindId: string; issuer: string; expiresOn: string | null },
  ): Promise<string> {
    permit(caller, 'coordinator', 'shipwright');
    const { organisationId } = caller;
    const issuer = shown.issuer.trim();
    if (issuer === '' || issuer.length > 200)
      refuse('BAD_INPUT', 'A card has an issuer.', {
        field: 'issuer',
        remedy: 'Write who issued it, in 1 to 200 characters.',
      });
    if (shown.expiresOn !== null && !isDay(shown.expiresOn))
      refuse('BAD_INPUT', `"${shown.expiresOn}" is not a day.`, {
        field: 'expiresOn',
        remedy: 'Write the last day on which it counts, such as 2028-05-31, or leave it out.',
      });
    if (shown.expiresOn !== null && shown.expiresOn > lastDay)
      refuse('BAD_INPUT', `${shown.expiresOn} is too far off.`, {
        field: 'expiresOn',
        remedy: `A day up to ${lastDay}; leave it out where the card does not lapse.`,
      });
    return this.database.write(async (manager) => {
      const volunteer = await volunteerOf(manager, organisationId, shown.volunteerId);
      const kind =
        (await manager.findOneBy(CardKind, { organisationId, id: shown.kindId })) ??
        refuse('NOT_FOUND', 'The yard knows no such card.', {
          field: 'kindId',
          remedy: 'Choose one of the yard’s kinds of cards.',
        });
      const { volunteerId, kindId } = shown;
      const expiresOn = shown.expiresOn ?? IsNull();
      if (await manager.existsBy(CardEntity, { organisationId, volunteerId, kindId, issuer, expiresOn }))
        refuse('ALREADY_EXISTS', `This card of ${volunteer.name} is on record already.`, {
          field: 'kindId',
          remedy: 'Look at their cards; a new one has another last day or another issuer.',
        });
      const id = newId('card');
      await manager.insert(CardEntity, { ...shown, issuer, id, organisationId });
      await this.revisions.requestPlan(manager, organisationId, `${volunteer.name} showed: ${kind.name}`);
      await this.audit.note(manager, caller, 'addCard', volunteer.id, {
        kind: kind.name,
        expiresOn: shown.expiresOn,
      });
      return volunteer.id;
    });
  }

  /** Takes a card off the record: it was entered by mistake, or withdrawn. */
  async remove(caller: Caller, cardId: string): Promise<string> {
    permit(caller, 'coordinator', 'shipwright');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const card =
        (await manager.findOneBy(CardEntity, { organisationId, id: cardId })) ??
        refuse('NOT_FOUND', 'There is no such card on record.', {
          field: 'cardId',
          remedy: 'Read the person’s cards again.',
        });
      await manager.delete(CardEntity, { id: card.id });
      await this.revisions.requestPlan(manager, organisationId, 'a card was taken off the record');
      await this.audit.note(manager, caller, 'removeCard', card.volunteerId, {
        issuer: card.issuer,
        expiresOn: card.expiresOn,
      });
      return card.volunteerId;
    });
  }
}
