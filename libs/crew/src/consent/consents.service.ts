import { Audit, permit, permitOwn, type Caller } from '@ribband/access';
import { Database, isDay, newId, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import { adultAge, ageOn } from '../gates/age.js';
import { type ConsentKind } from '../gates/consent.js';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import { volunteerOf } from '../volunteers/volunteers.service.js';
import { YardDay } from '../yard/yard-day.js';
import { GuardianConsent } from './consent.entity.js';

export interface ConsentDraft {
  guardianName: string;
  guardianEmail: string | null;
  kinds: ConsentKind[];
  how: string;
  givenOn: string;
}

/** What parents have said yes to. */
@Injectable()
export class Consents {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  /** Everything on record for somebody, the withdrawn included; nothing where the caller may not read it. */
  async of(caller: Caller, volunteerId: string): Promise<GuardianConsent[]> {
    const mayRead = caller.role !== 'volunteer' || caller.volunteerId === volunteerId;
    if (!mayRead) return [];
    const { organisationId } = caller;
    return this.database.read.find(GuardianConsent, {
      where: { organisationId, volunteerId },
      order: { id: 'ASC' },
      take: 100,
    });
  }

  /** Writes a parent's yes down. */
  async give(caller: Caller, volunteerId: string, draft: ConsentDraft): Promise<Volunteer> {
    permit(caller, 'coordinator', 'director');
    const { organisationId } = caller;
    const row = { ...draft, guardianName: draft.guardianName.trim(), how: draft.how.trim() };
    return this.database.write(async (manager) => {
      const volunteer = await volunteerOf(manager, organisationId, volunteerId);
      const today = await this.yardDay.today(organisationId, manager);
      refuseBadDraft(row, today);
      if (volunteer.bornOn !== null && ageOn(volunteer.bornOn, today) >= adultAge)
        refuse('BAD_INPUT', `${volunteer.name} is ${adultAge} or older and says yes without a parent.`, {
          field: 'volunteerId',
          remedy: 'If the day of birth on record is wrong, correct it first.',
        });
      await manager.insert(GuardianConsent, {
        ...row,
        id: newId('guardian'),
        organisationId,
        volunteerId,
        writtenBy: caller.name,
        withdrawnOn: null,
      });
      await this.revisions.requestPlan(manager, organisationId, `a parent's yes for ${volunteer.name}`);
      await this.audit.note(manager, caller, 'giveConsent', volunteerId, { kinds: row.kinds });
      return volunteer;
    });
  }

  /** From today on it counts no more. What was done under it stays on record. */
  async withdraw(caller: Caller, consentId: string): Promise<Volunteer> {
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const consent = await manager.findOneBy(GuardianConsent, {
        id: consentId,
        organisationId,
        withdrawnOn: IsNull(),
      });
      if (!consent) return refuse('NOT_FOUND', 'There is no such consent in force.', { field: 'consentId' });
      permitOwn(caller, consent.volunteerId, 'coordinator', 'director');
      const withdrawnOn = await this.yardDay.today(organisationId, manager);
      await manager.update(GuardianConsent, { id: consentId }, { withdrawnOn });
      const volunteer = await volunteerOf(manager, organisationId, consent.volunteerId);
      await this.revisions.requestPlan(manager, organisationId, `a consent for ${volunteer.name} ended`);
      await this.audit.note(manager, caller, 'withdrawConsent', consent.volunteerId);
      return volunteer;
    });
  }
}

function refuseBadDraft(draft: ConsentDraft, today: string): void {
  const wrong = (field: keyof ConsentDraft, message: string, remedy: string): never =>
    refuse('BAD_INPUT', message, { field, remedy });
  if (draft.guardianName === '' || draft.guardianName.length > 200)
    wrong('guardianName', 'Somebody says yes.', 'Write the parent’s name, in 1 to 200 characters.');
  const email = draft.guardianEmail;
  if (email !== null && (email.length > 254 || !/^[^\s@]+@[^\s@]+\.[^\s@]+$/.test(email)))
    wrong('guardianEmail', `"${email}" is no e-mail address.`, 'Such as name@example.org, or none.');
  if (draft.kinds.length === 0)
    wrong('kinds', 'A yes is a yes to something.', 'Choose at least one kind of work.');
  if (draft.how === '' || draft.how.length > 200)
    wrong('how', 'How it was given is kept.', 'Such as: on paper, kept in the office.');
  if (!isDay(draft.givenOn) || draft.givenOn > today)
    wrong('givenOn', 'The day is none, or lies ahead.', `A day not after ${today}.`);
}
