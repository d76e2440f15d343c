import { Audit, permit, type Caller } from '@ribband/access';
import {
  type ConnectionOf,
  Database,
  expectVersion,
  newId,
  type PageArgs,
  paginate,
  refuse,
  Revisions,
} from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { usualChance } from './usual-chance.js';
import { freeRef } from '../document/refs.js';
import { refuseFaults } from '../faults.js';
import { refuseTakenAway, whatIsGiven } from '../given.js';
import { YardDay } from '../yard/yard-day.js';
import { volunteerFaults, type VolunteerDraft } from './volunteer-faults.js';
import { Volunteer } from './volunteer.entity.js';

const staffRoles = ['director', 'coordinator', 'shipwright'] as const;

/** The list of people who may come. */
@Injectable()
export class Volunteers {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  /** Everybody, by name. */
  list(caller: Caller, page: PageArgs): Promise<ConnectionOf<Volunteer>> {
    permit(caller, ...staffRoles);
    const query = this.database.read
      .createQueryBuilder(Volunteer, 'volunteer')
      .where('volunteer.organisationId = :organisationId', { organisationId: caller.organisationId });
    return paginate(query, page, ['name', 'id']);
  }

  /** Those of the ids that the caller may see: staff all of the yard's, others their own. */
  seenBy(caller: Caller, ids: readonly string[]): Promise<Volunteer[]> {
    const isStaff = (staffRoles as readonly string[]).includes(caller.role);
    const seen = isStaff ? ids : ids.filter((id) => id === caller.volunteerId);
    return this.database.read.find(Volunteer, {
      where: { organisationId: caller.organisationId, id: In([...seen]) },
    });
  }

  async one(caller: Caller, id: string): Promise<Volunteer | null> {
    return (await this.seenBy(caller, [id]))[0] ?? null;
  }

  async add(caller: Caller, draft: VolunteerDraft): Promise<Volunteer> {
    permit(caller, 'director', 'coordinator');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      refuseFaults(volunteerFaults(draft, await this.yardDay.today(organisationId, manager)));
      await refuseNamesake(manager, organisationId, draft.name);
      const volunteer = manager.create(Volunteer, {
        ...draft,
        // Nobody states it: the record of who came says it.
        showUpChance: usualChance,
        name: draft.name.trim(),
        id: newId('volunteer'),
        organisationId,
        ref: await freeRef(manager, Volunteer, organisationId, draft.name),
        version: 1,
      });
      await manager.insert(Volunteer, volunteer);
      await this.changed(manager, caller, 'addVolunteer', volunteer);
      return volunteer;
    });
  }

  /** @param changes fields that are absent stay as they are */
  async edit(
    caller: Caller,
    id: string,
    version: number,
    changes: Partial<VolunteerDraft>,
  ): Promise<Volunteer> {
    permit(caller, 'director', 'coordinator');
    refuseTakenAway(changes, 'name', 'kind');
    return this.database.write(async (manager) => {
      const volunteer = await volunteerOf(manager, caller.organisationId, id);
      expectVersion(volunteer, version);
      const given = whatIsGiven(changes);
      const isRenamed = given.name !== undefined && sameName(given.name) !== sameName(volunteer.name);
      Object.assign(volunteer, given, { version: version + 1 });
      refuseFaults(volunteerFaults(volunteer, await this.yardDay.today(caller.organisationId, manager)));
      if (isRenamed) await refuseNamesake(manager, caller.organisationId, volunteer.name);
      volunteer.name = volunteer.name.trim();
      await manager.save(volunteer);
      await this.changed(manager, caller, 'editVolunteer', volunteer, { fields: Object.keys(given) });
      return volunteer;
    });
  }

  private async changed(
    manager: EntityManager,
    caller: Caller,
    operation: string,
    volunteer: Volunteer,
    facts: Record<string, unknown> = {},
  ): Promise<void> {
    await this.revisions.requestPlan(manager, caller.organisationId, `${operation}: ${volunteer.name}`);
    await this.audit.note(manager, caller, operation, volunteer.id, facts);
  }
}

/** Names that nobody tells apart when they are called. */
const sameName = (name: string): string => name.trim().replace(/\s+/g, ' ').toLowerCase();

/** @throws RefusalError ALREADY_EXISTS: who is called or posted must be one person */
async function refuseNamesake(manager: EntityManager, organisationId: string, name: string): Promise<void> {
  const crew = await manager.find(Volunteer, { where: { organisationId }, select: { id: true, name: true } });
  const other = crew.find((one) => sameName(one.name) === sameName(name));
  if (other)
    refuse('ALREADY_EXISTS', `There is a ${other.name} in the crew already.`, {
      field: 'name',
      remedy: 'If this is somebody else, tell them apart, such as by a middle initial.',
    });
}

/** A volunteer of the organisation. @throws RefusalError NOT_FOUND */
export async function volunteerOf(
  manager: EntityManager,
  organisationId: string,
  id: string,
  field = 'volunteerId',
): Promise<Volunteer> {
  return (
    (await manager.findOneBy(Volunteer, { organisationId, id })) ??
    refuse('NOT_FOUND', 'There is no such person in the crew.', {
      field,
      remedy: 'Choose one from the list.',
    })
  );
}
