import { Audit, permit, type Caller } from '@ribband/access';
import { type TagKind, YardDay } from '@ribband/crew';
import { Database, isDay, newId, refuse } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import { wordsGiven } from '../words.js';
import { SafetyTag } from './safety-tag.entity.js';

/** Inspection tags of staging and lifting gear as people at the yard write them down. */
@Injectable()
export class SafetyTags {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /** In use, soonest to lapse first, those that lapsed among them; at most 200. */
  tags({ organisationId }: Caller): Promise<SafetyTag[]> {
    return this.database.read.find(SafetyTag, {
      where: { organisationId, withdrawnBy: IsNull() },
      order: { expiresOn: 'ASC', id: 'ASC' },
      take: 200,
    });
  }

  /** Writes an inspection down: one that lapses before it was made, or is still to come, is none. */
  async hangTag(
    caller: Caller,
    draft: { kind: TagKind; name: string; inspectedOn: string; inspectedBy: string; expiresOn: string },
  ): Promise<SafetyTag> {
    permit(caller, 'shipwright', 'coordinator');
    const name = wordsGiven(draft.name, 'name', 2, 200, 'Which staging or gear, and where.');
    const inspectedBy = wordsGiven(draft.inspectedBy, 'inspectedBy', 2, 200, 'The name of who inspected it.');
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const today = await this.yardDay.today(organisationId, manager);
      if (!isDay(draft.inspectedOn) || draft.inspectedOn > today)
        refuse('BAD_INPUT', 'An inspection has been made, on a day that has come.', {
          field: 'inspectedOn',
          remedy: `${today} or a day before.`,
        });
      if (!isDay(draft.expiresOn) || draft.expiresOn < draft.inspectedOn)
        refuse('BAD_INPUT', 'It would lapse before it was inspected.', {
          field: 'expiresOn',
          remedy: `${draft.inspectedOn} or later.`,
        });
      const row: SafetyTag = {
        ...draft,
        id: newId('safetytag'),
        organisationId,
        name,
        inspectedBy,
        withdrawnBy: null,
      };
      await manager.insert(SafetyTag, row);
      await this.audit.note(manager, caller, 'hangTag', row.id, { kind: row.kind, name });
      return row;
    });
  }

  async withdrawTag(caller: Caller, id: string): Promise<SafetyTag> {
    permit(caller, 'shipwright', 'coordinator', 'director');
    return this.database.write(async (manager) => {
      const row =
        (await manager.findOneBy(SafetyTag, { organisationId: caller.organisationId, id })) ??
        refuse('NOT_FOUND', 'There is no such tag.', { field: 'id' });
      if (row.withdrawnBy === null) {
        row.withdrawnBy = caller.name;
        await manager.save(SafetyTag, row);
        await this.audit.note(manager, caller, 'withdrawTag', id, {});
      }
      return row;
    });
  }
}
