import { Audit, permit, type Caller } from '@ribband/access';
import { Skill } from '@ribband/crew';
import { Database, expectVersion, isDay, newId, RealClock, refuse } from '@ribband/platform';
import { wordsOf, wordsOrNull } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, Not, type EntityManager } from 'typeorm';
import { GrantEntity } from './grant.entity.js';
import { kindOf } from './hour.records.js';
import { HourRateEntity } from './hour-rate.entity.js';
import { WorkKindEntity } from './work-kind.entity.js';

export interface GrantDraft {
  name: string;
  funder: string;
  awardNumber: string | null;
  from: string;
  to: string;
  kindIds: string[];
}

export interface RateDraft {
  kindId: string | null;
  grantId: string | null;
  from: string;
  centsAnHour: number;
  source: string;
}

const readers = ['director', 'coordinator'] as const;
/** Cents: no hour is worth a thousand dollars. */
const mostAnHour = 100_000;

/** Kinds of work, what an hour of each is worth, and the awards that hours count towards. */
@Injectable()
export class Grants {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  kinds({ organisationId }: Caller): Promise<WorkKindEntity[]> {
    return this.database.read.find(WorkKindEntity, {
      where: { organisationId },
      order: { name: 'ASC' },
      take: 100,
    });
  }

  grants(caller: Caller): Promise<GrantEntity[]> {
    permit(caller, ...readers);
    const where = { organisationId: caller.organisationId };
    return this.database.read.find(GrantEntity, { where, order: { fromOn: 'DESC', name: 'ASC' }, take: 100 });
  }

  rates(caller: Caller): Promise<HourRateEntity[]> {
    permit(caller, ...readers);
    const where = { organisationId: caller.organisationId };
    return this.database.read.find(HourRateEntity, {
      where,
      order: { fromOn: 'DESC', enteredAt: 'DESC' },
      take: 200,
    });
  }

  /** Adds a kind of work, or names one anew. @param id null for a new one */
  async setKind(
    caller: Caller,
    id: string | null,
    draft: { name: string; skillId: string | null },
  ): Promise<WorkKindEntity> {
    permit(caller, 'director');
    const name = wordsOf(draft.name, 'name', 100, 'The name');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      if (draft.skillId !== null && !(await manager.existsBy(Skill, { organisationId, id: draft.skillId })))
        refuse('UNKNOWN_SKILL', 'The yard knows no such skill.', { field: 'skillId' });
      await refuseNamedTwice(manager, WorkKindEntity, organisationId, name, id);
      const there = id === null ? null : await kindOf(manager, organisationId, id, 'id');
      const kind: WorkKindEntity = {
        id: there?.id ?? newId('workkind'),
        organisationId,
        version: (there?.version ?? 0) + 1,
        name,
        skillId: draft.skillId,
      };
      await manager.save(WorkKindEntity, kind);
      await this.audit.note(manager, caller, 'setWorkKind', kind.id, { name });
      return kind;
    });
  }

  /** Adds a grant, or changes one. @param change null for a new one */
  async setGrant(
    caller: Caller,
    change: { id: string; version: number } | null,
    draft: GrantDraft,
  ): Promise<GrantEntity> {
    permit(caller, 'director');
    const { organisationId } = caller;
    const fields = {
      name: wordsOf(draft.name, 'name', 200, 'The name'),
      funder: wordsOf(draft.funder, 'funder', 200, 'The funder'),
      awardNumber: wordsOrNull(draft.awardNumber, 'awardNumber', 100, 'The award number'),
      fromOn: draft.from,
      toOn: draft.to,
      kindIds: [...new Set(draft.kindIds)],
    };
    if (draft.to < draft.from)
      refuse('BAD_INPUT', 'The last day is before the first.', {
        field: 'to',
        remedy: `Name ${draft.from} or a later day.`,
      });
    return this.database.write(async (manager) => {
      for (const kindId of fields.kindIds) await kindOf(manager, organisationId, kindId, 'kindIds');
      await refuseNamedTwice(manager, GrantEntity, organisationId, fields.name, change?.id ?? null);
      const there = change && (await grantOf(manager, organisationId, change.id, 'id'));
      if (there) expectVersion(there, change.version);
      const grant: GrantEntity = {
        id: there?.id ?? newId('grant'),
        organisationId,
        version: (there?.version ?? 0) + 1,
        ...fields,
      };
      await manager.save(GrantEntity, grant);
      await this.audit.note(manager, caller, 'setGrant', grant.id, { ...fields });
      return grant;
    });
  }

  /** Says what an hour is worth from a day on. Reports that were made keep the rate that they were made with. */
  async addRate(caller: Caller, draft: RateDraft): Promise<HourRateEntity> {
    permit(caller, 'director');
    const { organisationId } = caller;
    const { kindId, grantId, from, centsAnHour } = draft;
    const source = wordsOf(draft.source, 'source', 300, 'Where the figure comes from');
    if (!Number.isInteger(centsAnHour) || centsAnHour < 1 || centsAnHour > mostAnHour)
      refuse('BAD_INPUT', `${centsAnHour} cents are no worth of an hour.`, {
        field: 'centsAnHour',
        remedy: `Whole cents from 1 to ${mostAnHour}.`,
      });
    if (!isDay(from)) refuse('BAD_INPUT', `"${from}" is not a day.`, { field: 'from' });
    return this.database.write(async (manager) => {
      if (kindId !== null) await kindOf(manager, organisationId, kindId, 'kindId');
      if (grantId !== null) await grantOf(manager, organisationId, grantId, 'grantId');
      const rate: HourRateEntity = {
        id: newId('hourrate'),
        organisationId,
        kindId,
        grantId,
        fromOn: from,
        centsAnHour,
        source,
        enteredBy: caller.name,
        enteredAt: this.realClock.now(),
      };
      await manager.insert(HourRateEntity, rate);
      await this.audit.note(manager, caller, 'addHourRate', rate.id, { kindId, grantId, from, centsAnHour });
      return rate;
    });
  }
}

/** @throws RefusalError NOT_FOUND */
export const grantOf = async (
  manager: EntityManager,
  organisationId: string,
  id: string,
  field: string,
): Promise<GrantEntity> =>
  (await manager.findOneBy(GrantEntity, { organisationId, id })) ??
  refuse('NOT_FOUND', 'There is no such grant.', { field, remedy: 'Choose one from the list.' });

async function refuseNamedTwice(
  manager: EntityManager,
  entity: typeof WorkKindEntity | typeof GrantEntity,
  organisationId: string,
  name: string,
  id: string | null,
): Promise<void> {
  const other = { organisationId, name, ...(id === null ? {} : { id: Not(In([id])) }) };
  if (await manager.existsBy<WorkKindEntity | GrantEntity>(entity, other))
    refuse('ALREADY_EXISTS', `There is one called "${name}" already.`, {
      field: 'name',
      remedy: 'Choose another name.',
    });
}
