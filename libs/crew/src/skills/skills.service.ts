import { Audit, permit, type Caller } from '@ribband/access';
import { Database, newId, RealClock, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { CardKind } from '../cards/card-kind.entity.js';
import { volunteerOf } from '../volunteers/volunteers.service.js';
import { highestLevel, inWords, isLevel } from './levels.js';
import { Skill } from './skill.entity.js';
import { VolunteerSkill } from './volunteer-skill.entity.js';

/** The yard's closed lists, and how far each has come. */
@Injectable()
export class Skills {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RealClock) private readonly clock: RealClock,
  ) {}

  /** At most 100. */
  list(caller: Caller): Promise<Skill[]> {
    const { organisationId } = caller;
    return this.database.read.find(Skill, { where: { organisationId }, order: { id: 'ASC' }, take: 100 });
  }

  /** At most 100. */
  cardKinds(caller: Caller): Promise<CardKind[]> {
    const { organisationId } = caller;
    return this.database.read.find(CardKind, { where: { organisationId }, order: { id: 'ASC' }, take: 100 });
  }

  /** Signs somebody off at a level, in the caller's name. */
  async setLevel(caller: Caller, volunteerId: string, skillId: string, level: number): Promise<string> {
    permit(caller, 'shipwright', 'coordinator');
    if (!isLevel(level))
      refuse('BAD_INPUT', `A skill has no level ${level}.`, {
        field: 'level',
        remedy: `Choose 0 to ${highestLevel}: none, learning, works alone, teaches, may say so.`,
      });
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const volunteer = await volunteerOf(manager, organisationId, volunteerId);
      const skill =
        (await manager.findOneBy(Skill, { organisationId, id: skillId })) ??
        refuse('UNKNOWN_SKILL', 'The yard knows no such skill.', {
          field: 'skillId',
          remedy: 'Choose one of the yard’s skills.',
        });
      const now = { level, signedOffBy: caller.name, signedOffAt: this.clock.now() };
      const held = await manager.findOneBy(VolunteerSkill, { volunteerId, skillId });
      if (held) await manager.update(VolunteerSkill, { id: held.id }, now);
      else
        await manager.insert(VolunteerSkill, {
          id: newId('level'),
          organisationId,
          volunteerId,
          skillId,
          ...now,
        });
      await this.revisions.requestPlan(
        manager,
        organisationId,
        `${volunteer.name}: ${skill.name}, ${inWords(level)}`,
      );
      await this.audit.note(manager, caller, 'setSkillLevel', volunteerId, {
        skill: skill.name,
        from: held?.level ?? 0,
        to: level,
      });
      return volunteerId;
    });
  }
}
