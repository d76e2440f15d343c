import { Audit, permitOwn, type Caller } from '@ribband/access';
import { Database, expectVersion, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { Skill } from '../skills/skill.entity.js';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import { volunteerOf } from '../volunteers/volunteers.service.js';
import { type RatherNot } from './rather-not.js';
import { PersonWish } from './wish.entity.js';

/** More turnouts than a month has days are no cap. */
const mostTurnouts = 31;

export interface Wishes {
  turnoutsAMonth: number | null;
  ratherNots: RatherNot[];
  /** Ids of skills. */
  wouldLearn: string[];
}

/** What is said anew; what somebody would learn stays where it is left out. */
export type WishesToSet = Omit<Wishes, 'wouldLearn'> & Partial<Pick<Wishes, 'wouldLearn'>>;

/** What people ask for themselves. */
@Injectable()
export class WishBook {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /** Whether the caller may read somebody's wishes: they themselves and the coordinator. */
  mayRead(caller: Pick<Caller, 'role' | 'volunteerId'>, volunteerId: string): boolean {
    return caller.role === 'coordinator' || caller.volunteerId === volunteerId;
  }

  /** Null where the caller may not read them. */
  async read(caller: Caller, volunteerId: string): Promise<Wishes | null> {
    if (!this.mayRead(caller, volunteerId)) return null;
    const { organisationId } = caller;
    const { read } = this.database;
    const row = await read.findOneBy(PersonWish, { organisationId, volunteerId });
    const skills = await read.findBy(Skill, { organisationId, ref: In(row?.wouldLearn ?? []) });
    return {
      turnoutsAMonth: row?.turnoutsAMonth ?? null,
      ratherNots: row?.ratherNots ?? [],
      wouldLearn: skills.map(({ id }) => id),
    };
  }

  /** Says anew what somebody asks for: they themselves, or the coordinator for them. No reason is asked. */
  async set(caller: Caller, volunteerId: string, version: number, wishes: WishesToSet): Promise<Volunteer> {
    permitOwn(caller, volunteerId, 'coordinator');
    const { organisationId } = caller;
    const { turnoutsAMonth } = wishes;
    if (
      turnoutsAMonth !== null &&
      (!Number.isInteger(turnoutsAMonth) || turnoutsAMonth < 1 || turnoutsAMonth > mostTurnouts)
    )
      refuse('BAD_INPUT', `${turnoutsAMonth} turnouts a month are no cap.`, {
        field: 'turnoutsAMonth',
        remedy: `A whole number from 1 to ${mostTurnouts}, or none. Away altogether? Say so in your days.`,
      });
    const ratherNots = [...new Set(wishes.ratherNots)];
    return this.database.write(async (manager) => {
      const volunteer = await volunteerOf(manager, organisationId, volunteerId);
      expectVersion(volunteer, version);
      const known = await manager.findOneBy(PersonWish, { volunteerId });
      const wouldLearn =
        wishes.wouldLearn === undefined
          ? (known?.wouldLearn ?? null)
          : await refsOf(manager, organisationId, wishes.wouldLearn);
      await manager.save(PersonWish, {
        ...{ volunteerId, organisationId, turnoutsAMonth, ratherNots, wouldLearn },
      });
      volunteer.version += 1;
      await manager.update(Volunteer, { id: volunteerId }, { version: volunteer.version });
      await this.revisions.requestPlan(manager, organisationId, `what ${volunteer.name} asks for`);
      // What they would rather not do is nobody's business, the trail's neither.
      await this.audit.note(manager, caller, 'setWishes', volunteerId, { turnoutsAMonth });
      return volunteer;
    });
  }
}

async function refsOf(
  manager: EntityManager,
  organisationId: string,
  skillIds: readonly string[],
): Promise<string[] | null> {
  const ids = [...new Set(skillIds)];
  const skills = await manager.find(Skill, { where: { organisationId, id: In(ids) }, order: { id: 'ASC' } });
  if (skills.length < ids.length)
    refuse('NOT_FOUND', 'The yard has no such skill.', {
      field: 'wouldLearn',
      remedy: 'Choose from the skills that the yard lists.',
    });
  return skills.length === 0 ? null : skills.map(({ ref }) => ref);
}
