import { Audit, type Caller, permitOwn } from '@ribband/access';
import { Database, refuse } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import type { Volunteer } from '../volunteers/volunteer.entity.js';
import { volunteerOf } from '../volunteers/volunteers.service.js';
import { PhoneEntity } from './phone.entity.js';

/** Digits with what people write between them; 5 digits or more. */
export const isPhone = (number: string): boolean =>
  /^\+?[\d ()./-]{5,30}$/.test(number) && number.replace(/\D/g, '').length >= 5;

/** Where people are rung up: for the coordinator and for themselves. */
@Injectable()
export class Phones {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /** Numbers by volunteer, of those that the caller may read: the coordinator everybody's, others their own. */
  async seenBy(
    caller: Pick<Caller, 'organisationId' | 'role' | 'volunteerId'>,
    volunteerIds: readonly string[],
  ): Promise<ReadonlyMap<string, string>> {
    const seen =
      caller.role === 'coordinator' ? volunteerIds : volunteerIds.filter((id) => id === caller.volunteerId);
    return phonesOf(this.database.read, caller.organisationId, seen);
  }

  /** Writes a number down, or takes it away: they themselves, or the coordinator for them. */
  async set(caller: Caller, volunteerId: string, given: string | null): Promise<Volunteer> {
    permitOwn(caller, volunteerId, 'coordinator');
    const number = given?.trim() ? given.trim() : null;
    if (number !== null && !isPhone(number))
      refuse('BAD_INPUT', 'That is no telephone number.', {
        field: 'phone',
        remedy: 'Digits, 5 or more, as one dials them, such as +1 360 555 0142; leave it empty for none.',
      });
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const volunteer = await volunteerOf(manager, organisationId, volunteerId);
      if (number === null) await manager.delete(PhoneEntity, { organisationId, volunteerId });
      else await manager.upsert(PhoneEntity, { volunteerId, organisationId, number }, ['volunteerId']);
      await this.audit.note(manager, caller, 'setPhone', volunteerId, { isThere: number !== null });
      return volunteer;
    });
  }
}

async function phonesOf(
  manager: EntityManager,
  organisationId: string,
  volunteerIds: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  const rows = await manager.findBy(PhoneEntity, { organisationId, volunteerId: In([...volunteerIds]) });
  return new Map(rows.map(({ volunteerId, number }) => [volunteerId, number]));
}
