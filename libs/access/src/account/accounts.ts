import { Inject, Injectable } from '@nestjs/common';
import { Database, idKind, newId, RealClock, refuse } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { Audit } from '../audit/audit.js';
import type { Caller, Role } from '../caller.js';
import { Organisation } from '../organisation/organisation.entity.js';
import { NodeRegistry } from '../node/node-registry.js';
import { permit } from '../leave/permit.js';
import { plainEmail, Sessions } from '../session/sessions.js';
import { Tries } from '../session/tries.js';
import { Account } from './account.entity.js';
import { Membership } from './membership.entity.js';
import { checkPassword, oneTimePassword, Passwords } from './passwords.js';

/** Somebody who shall be able to sign in. */
export interface NewAccount {
  email: string;
  name: string;
  role: Role;
  volunteerId: string | null;
}

/** An account as its yard sees it. */
export interface AccountEntry {
  id: string;
  email: string;
  name: string;
  role: Role;
  volunteerId: string | null;
  hasOneTimePassword: boolean;
}

/** Who can sign in at a yard. */
@Injectable()
export class Accounts {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Passwords) private readonly passwords: Passwords,
    @Inject(Sessions) private readonly sessions: Sessions,
    @Inject(Tries) private readonly tries: Tries,
    @Inject(NodeRegistry) private readonly nodes: NodeRegistry,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /** Everybody who can sign in at the caller's yard, by name. */
  async list(caller: Caller): Promise<AccountEntry[]> {
    permit(caller, 'director');
    return this.of({ id: caller.organisationId });
  }

  /** Everybody who can sign in at the demo yard, for the server itself. */
  ofDemoYard(): Promise<AccountEntry[]> {
    return this.of({ isDemo: true });
  }

  /**
   * Opens an account with a password that is shown this once and must be changed at the first sign-in.
   * @throws RefusalError BAD_INPUT, ALREADY_EXISTS
   */
  async open(caller: Caller, wanted: NewAccount): Promise<{ entry: AccountEntry; oneTimePassword: string }> {
    permit(caller, 'director');
    if (wanted.volunteerId && !(await this.isVolunteerOf(caller, wanted.volunteerId))) {
      refuse('NOT_FOUND', 'There is no such volunteer at your yard.', { field: 'volunteerId' });
    }
    const password = oneTimePassword();
    const passwordHash = await this.passwords.hash(password);
    const entry = await this.database.write(async (manager) => {
      const made = await this.add(manager, caller.organisationId, wanted, passwordHash, true);
      await this.audit.note(manager, caller, 'openAccount', made.id, { role: made.role });
      return made;
    });
    return { entry, oneTimePassword: password };
  }

  /**
   * Gives somebody a new first password and ends their sessions: for those who have forgotten theirs.
   * @throws RefusalError NOT_FOUND; NOT_PERMITTED when the account belongs to another yard as well
   */
  async renewPassword(
    caller: Caller,
    accountId: string,
  ): Promise<{ entry: AccountEntry; oneTimePassword: string }> {
    permit(caller, 'director');
    const password = oneTimePassword();
    const passwordHash = await this.passwords.hash(password);
    const entry = await this.database.write(async (manager) => {
      const { account, membership } = await ofYard(manager, caller, accountId);
      if ((await manager.countBy(Membership, { accountId })) > 1) {
        refuse('NOT_PERMITTED', 'This account belongs to another yard as well.', {
          field: 'accountId',
          remedy: 'Only the person can change its password.',
        });
      }
      Object.assign(account, { passwordHash, hasOneTimePassword: true });
      await manager.save(Account, account);
      await this.sessions.endOthers(manager, accountId, null);
      await this.audit.note(manager, caller, 'renewPassword', accountId);
      return entryOf(account, membership);
    });
    return { entry, oneTimePassword: password };
  }

  /** Takes somebody's way in to the caller's yard away. @throws RefusalError NOT_FOUND; NOT_PERMITTED for one's own */
  async close(caller: Caller, accountId: string): Promise<void> {
    permit(caller, 'director');
    if (accountId === caller.accountId) {
      refuse('NOT_PERMITTED', 'Nobody closes their own account.', {
        field: 'accountId',
        remedy: 'Ask another director of your yard, so that there is always one left.',
      });
    }
    await this.database.write(async (manager) => {
      const { membership } = await ofYard(manager, caller, accountId);
      await manager.delete(Membership, { id: membership.id });
      await this.sessions.endOthers(manager, accountId, null);
      if (!(await manager.existsBy(Membership, { accountId })))
        await manager.delete(Account, { id: accountId });
      await this.audit.note(manager, caller, 'closeAccount', accountId, { role: membership.role });
    });
  }

  /**
   * Opens an account with a password of the server's choice, for a yard that is being set up.
   * @param mustChange whether the password allows nothing but choosing another
   */
  async openWith(
    manager: EntityManager,
    organisationId: string,
    wanted: NewAccount,
    passwordHash: string,
    mustChange = false,
  ): Promise<AccountEntry> {
    return this.add(manager, organisationId, wanted, passwordHash, mustChange);
  }

  /** Changes the caller's own password and ends their other sessions. */
  async changePassword(
    caller: Caller,
    old: string,
    wanted: string,
    from: { sessionToken: string | null; address: string },
  ): Promise<void> {
    const account = await this.database.read.findOneByOrFail(Account, { id: caller.accountId });
    this.tries.count(account.email, from.address);
    if (!(await this.passwords.isRight(account.passwordHash, old))) {
      refuse('SIGN_IN_FAILED', 'The old password is not right.', { field: 'old' });
    }
    this.tries.forget(account.email, from.address);
    checkPassword(wanted, [account.email, account.email.split('@')[0] ?? '', account.name], 'new');
    if (wanted === old) {
      refuse('PASSWORD_TOO_WEAK', 'The new password is the old one.', { field: 'new' });
    }
    const passwordHash = await this.passwords.hash(wanted);
    await this.database.write(async (manager) => {
      await manager.update(Account, { id: account.id }, { passwordHash, hasOneTimePassword: false });
      await this.sessions.endOthers(manager, account.id, from.sessionToken);
      await this.audit.note(manager, caller, 'changePassword', account.id);
    });
  }

  private async isVolunteerOf(caller: Caller, id: string): Promise<boolean> {
    return idKind(id) === 'volunteer' && (await this.nodes.find(id, caller)) !== null;
  }

  private async of(organisation: { id: string } | { isDemo: true }): Promise<AccountEntry[]> {
    const rows = await this.database.read
      .createQueryBuilder(Membership, 'membership')
      .innerJoinAndMapOne('membership.account', Account, 'account', 'account.id = membership.accountId')
      .innerJoin(Organisation, 'organisation', 'organisation.id = membership.organisationId')
      .where('id' in organisation ? 'organisation.id = :id' : 'organisation.isDemo = :isDemo', organisation)
      .orderBy('account.name')
      .addOrderBy('account.id')
      .take(1_000)
      .getMany();
    return (rows as (Membership & { account: Account })[]).map((row) => entryOf(row.account, row));
  }

  private async add(
    manager: EntityManager,
    organisationId: string,
    wanted: NewAccount,
    passwordHash: string,
    hasOneTimePassword: boolean,
  ): Promise<AccountEntry> {
    const email = plainEmail(wanted.email);
    const name = wanted.name.trim();
    if (!/^[^\s@]+@[^\s@]+$/.test(email) || email.length > 200) {
      refuse('BAD_INPUT', 'This is not an e-mail address.', {
        field: 'email',
        remedy: 'Such as ada@yard.example',
      });
    }
    if (name === '' || name.length > 100) {
      refuse('BAD_INPUT', 'A name has 1 to 100 characters.', { field: 'name' });
    }
    if (await manager.existsBy(Account, { email })) {
      refuse('ALREADY_EXISTS', 'There is an account with this address.', { field: 'email' });
    }
    if (
      wanted.volunteerId &&
      (await manager.existsBy(Membership, { organisationId, volunteerId: wanted.volunteerId }))
    ) {
      refuse('ALREADY_EXISTS', 'This volunteer has an account.', { field: 'volunteerId' });
    }
    const account: Account = {
      id: newId('account'),
      email,
      name,
      passwordHash,
      hasOneTimePassword,
      openedAt: this.clock.now(),
    };
    const membership: Membership = {
      id: newId('membership'),
      organisationId,
      accountId: account.id,
      role: wanted.role,
      volunteerId: wanted.volunteerId,
    };
    await manager.insert(Account, account);
    await manager.insert(Membership, membership);
    return entryOf(account, membership);
  }
}

/** An account of the caller's yard. One of another yard reads as if it were not there. */
async function ofYard(
  manager: EntityManager,
  caller: Caller,
  accountId: string,
): Promise<{ account: Account; membership: Membership }> {
  const { organisationId } = caller;
  const membership = await manager.findOneBy(Membership, { accountId, organisationId });
  const account = membership && (await manager.findOneBy(Account, { id: accountId }));
  if (!account) refuse('NOT_FOUND', 'There is no such account at your yard.', { field: 'accountId' });
  return { account, membership };
}

function entryOf(account: Account, membership: Membership): AccountEntry {
  const { id, email, name, hasOneTimePassword } = account;
  return { id, email, name, hasOneTimePassword, role: membership.role, volunteerId: membership.volunteerId };
}
