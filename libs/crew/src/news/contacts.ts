import { Account, Membership, Organisation, type Role } from '@ribband/access';
import type { Contact, FindContact } from '@ribband/platform';
import { In, type EntityManager } from 'typeorm';
import { GuardianConsent } from '../consent/consent.entity.js';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import type { YardDay } from '../yard/yard-day.js';

/** The people of the demo yard are invented: nobody writes to them. */
async function mayBeWrittenTo(manager: EntityManager, organisationId: string): Promise<boolean> {
  return manager.existsBy(Organisation, { id: organisationId, isDemo: false });
}

/** How to reach people by e-mail, as a finder for each kind of recipient. */
export function contactFinder(
  yardDay: YardDay,
  find: (
    manager: EntityManager,
    organisationId: string,
    id: string,
  ) => Promise<Omit<Contact, 'timeZone'> | null>,
): FindContact {
  return async (manager, organisationId, id): Promise<Contact | null> => {
    const found = await find(manager, organisationId, id);
    if (!found) return null;
    const email = (await mayBeWrittenTo(manager, organisationId)) ? found.email : null;
    return { ...found, email, timeZone: await yardDay.zone(organisationId, manager) };
  };
}

/** Somebody of the crew: their own address, else that of their account. */
export async function findVolunteer(manager: EntityManager, organisationId: string, id: string) {
  const volunteer = await manager.findOneBy(Volunteer, { organisationId, id });
  if (!volunteer) return null;
  if (volunteer.email !== null) return { name: volunteer.name, email: volunteer.email };
  const member = await manager.findOneBy(Membership, { organisationId, volunteerId: id });
  const account = member && (await manager.findOneBy(Account, { id: member.accountId }));
  return { name: volunteer.name, email: account?.email ?? null };
}

/** Whoever answers for somebody under 18; their address stands with their consent. */
export async function findGuardian(manager: EntityManager, organisationId: string, id: string) {
  const consent = await manager.findOneBy(GuardianConsent, { organisationId, id });
  return consent && { name: consent.guardianName, email: consent.guardianEmail, signsIn: false };
}

/** Somebody who signs in and has no entry in the crew's list. */
export async function findAccount(manager: EntityManager, organisationId: string, id: string) {
  if (!(await manager.existsBy(Membership, { organisationId, accountId: id }))) return null;
  const account = await manager.findOneBy(Account, { id });
  return account && { name: account.name, email: account.email };
}

/** To whom news for those who run the yard go: everybody who signs in with one of these roles. */
export async function recipientsWith(
  manager: EntityManager,
  organisationId: string,
  ...roles: Role[]
): Promise<string[]> {
  const members = await manager.findBy(Membership, { organisationId, role: In(roles) });
  return members.map((member) => member.volunteerId ?? member.accountId);
}
