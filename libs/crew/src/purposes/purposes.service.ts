import { Audit, permit, type Caller } from '@ribband/access';
import { Database, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { Not, type EntityManager } from 'typeorm';
import { CardKind } from '../cards/card-kind.entity.js';
import { Skill } from '../skills/skill.entity.js';
import type { CardPurpose, SkillPurpose } from './purposes.js';

/**
 * What the yard takes its kinds of cards and its skills for: the director says it, with a reason that stays in the audit
 * trail, for it moves what stops people, and so the plan.
 */
@Injectable()
export class Purposes {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /**
   * @param purpose null: for nothing that the gates or the papers go by
   * @throws RefusalError STILL_IN_USE where no card would be left for first aid, and its gate would ask for nobody
   */
  async ofCard(caller: Caller, kindId: string, purpose: CardPurpose | null, why: string): Promise<CardKind> {
    permit(caller, 'director');
    const { organisationId } = caller;
    const reason = reasonIn(why);
    return this.database.write(async (manager) => {
      const kind =
        (await manager.findOneBy(CardKind, { organisationId, id: kindId })) ??
        refuse('NOT_FOUND', 'The yard knows no such card.', {
          field: 'kindId',
          remedy: 'Choose one of the yard’s kinds of cards.',
        });
      const was = kind.purpose;
      if (was === 'first-aid' && purpose !== was) await refuseWithoutFirstAid(manager, kind);
      await manager.update(CardKind, { id: kindId }, { purpose });
      const { name } = kind;
      await this.audit.note(manager, caller, 'setCardPurpose', kindId, { kind: name, was, purpose, reason });
      await this.revisions.requestPlan(manager, organisationId, `what ${name} is taken for`);
      return Object.assign(kind, { purpose });
    });
  }

  /** @param purpose null: for nothing that the gates go by */
  async ofSkill(caller: Caller, skillId: string, purpose: SkillPurpose | null, why: string): Promise<Skill> {
    permit(caller, 'director');
    const { organisationId } = caller;
    const reason = reasonIn(why);
    return this.database.write(async (manager) => {
      const skill =
        (await manager.findOneBy(Skill, { organisationId, id: skillId })) ??
        refuse('UNKNOWN_SKILL', 'The yard knows no such skill.', {
          field: 'skillId',
          remedy: 'Choose one of the yard’s skills.',
        });
      await manager.update(Skill, { id: skillId }, { purpose });
      const was = skill.purpose;
      const { name } = skill;
      await this.audit.note(manager, caller, 'setSkillPurpose', skillId, {
        skill: name,
        was,
        purpose,
        reason,
      });
      await this.revisions.requestPlan(manager, organisationId, `what ${name} is taken for`);
      return Object.assign(skill, { purpose });
    });
  }
}

async function refuseWithoutFirstAid(
  manager: EntityManager,
  { id, organisationId, name }: CardKind,
): Promise<void> {
  const others = await manager.countBy(CardKind, { organisationId, id: Not(id), purpose: 'first-aid' });
  if (others > 0) return;
  refuse('STILL_IN_USE', `No other kind of card than “${name}” is taken for first aid.`, {
    field: 'purpose',
    remedy: 'Say first which other kind is taken for first aid.',
  });
}

/** @throws RefusalError BAD_INPUT */
function reasonIn(why: string): string {
  const reason = why.trim();
  if (reason.length >= 10 && reason.length <= 500) return reason;
  return refuse('BAD_INPUT', 'What is taken for what changes whom the gates let in: it has a reason.', {
    field: 'reason',
    remedy: 'Say why, in 10 to 500 characters.',
  });
}
