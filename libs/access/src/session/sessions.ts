import { createHash, randomBytes } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import { Bus, Database, RealClock, refuse } from '@ribband/platform';
import { type EntityManager, LessThanOrEqual, Not } from 'typeorm';
import { Account } from '../account/account.entity.js';
import { Membership } from '../account/membership.entity.js';
import { Passwords } from '../account/passwords.js';
import type { Caller } from '../caller.js';
import { Audit } from '../audit/audit.js';
import { LoginSession } from './login-session.entity.js';
import { Tries } from './tries.js';

const sessionDays = 30;

/** A login that is in force. */
export interface LiveSession {
  caller: Caller;
  expiresAt: number;
  /** Whether the password was made by the server and must be changed before anything else. */
  mustChangePassword: boolean;
}

/** A login that has just begun: the only time that the token is known. */
export interface NewSession extends LiveSession {
  token: string;
}

/** The topic on which the end of sessions is told; the payload is the hash of the token. */
export const sessionEnded = 'session-ended';

/** Signing in and out. */
@Injectable()
export class Sessions {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Passwords) private readonly passwords: Passwords,
    @Inject(Tries) private readonly tries: Tries,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /**
   * Begins a session. An account that does not exist and a wrong password read the same and take as long.
   * @param address where the try comes from
   * @throws RefusalError SIGN_IN_FAILED, TOO_MANY_TRIES
   */
  async signIn(email: string, password: string, address: string): Promise<NewSession> {
    const known = plainEmail(email);
    this.tries.count(known, address);
    const account = await this.database.read.findOneBy(Account, { email: known });
    const isRight = await this.passwords.isRight(account?.passwordHash ?? null, password);
    const membership =
      isRight && account
        ? await this.database.read.findOne(Membership, {
            where: { accountId: account.id },
            order: { id: 'ASC' },
          })
        : null;
    if (!account || !membership) {
      refuse('SIGN_IN_FAILED', 'The address and the password do not belong together.', {
        remedy: 'Check both. A director of your yard can give you a new password.',
      });
    }
    this.tries.forget(known, address);
    const token = randomBytes(32).toString('base64url');
    const now = this.clock.now();
    const expiresAt = now + sessionDays * 24 * 60 * 60_000;
    const caller = callerOf(account, membership);
    await this.database.write(async (manager) => {
      await manager.delete(LoginSession, { accountId: account.id, expiresAt: LessThanOrEqual(now) });
      await manager.insert(LoginSession, {
        tokenHash: hashOf(token),
        accountId: account.id,
        organisationId: membership.organisationId,
        beganAt: now,
        expiresAt,
      });
      await this.audit.note(manager, caller, 'signIn', account.id);
    });
    return { token, caller, expiresAt, mustChangePassword: account.hasOneTimePassword };
  }

  /** The session that a token belongs to, with the role that its account has now; null when there is none. */
  async find(token: string): Promise<LiveSession | null> {
    const session = await this.database.read.findOneBy(LoginSession, { tokenHash: hashOf(token) });
    if (!session || session.expiresAt <= this.clock.now()) return null;
    const { accountId, organisationId } = session;
    const [account, membership] = await Promise.all([
      this.database.read.findOneBy(Account, { id: accountId }),
      this.database.read.findOneBy(Membership, { accountId, organisationId }),
    ]);
    if (!account || !membership) return null;
    return {
      caller: callerOf(account, membership),
      expiresAt: session.expiresAt,
      mustChangePassword: account.hasOneTimePassword,
    };
  }

  /** Ends a session; one that is not there has ended already. */
  async signOut(token: string): Promise<void> {
    const tokenHash = hashOf(token);
    await this.database.write(async (manager) => {
      await manager.delete(LoginSession, { tokenHash });
      this.bus.publishAfter(manager, sessionEnded, tokenHash);
    });
  }

  /** Ends the sessions of an account, all but the one of a token. */
  async endOthers(manager: EntityManager, accountId: string, token: string | null): Promise<void> {
    const others = { accountId, ...(token ? { tokenHash: Not(hashOf(token)) } : {}) };
    const ended = await manager.findBy(LoginSession, others);
    await manager.delete(LoginSession, others);
    for (const session of ended) this.bus.publishAfter(manager, sessionEnded, session.tokenHash);
  }
}

/** How e-mail addresses are kept and compared. */
export function plainEmail(email: string): string {
  return email.trim().toLowerCase();
}

export function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}

function callerOf(account: Account, membership: Membership): Caller {
  return {
    accountId: account.id,
    name: account.name,
    organisationId: membership.organisationId,
    role: membership.role,
    volunteerId: membership.volunteerId,
  };
}
