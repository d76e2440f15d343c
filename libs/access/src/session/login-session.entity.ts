import { IdColumn, InstantColumn, RefColumn } from '@ribband/platform';
import { Entity, Index } from 'typeorm';
import { Account } from '../account/account.entity.js';
import { Organisation } from '../organisation/organisation.entity.js';

/** A sign-in that has not been ended. The cookie carries the token; the table only its hash. */
@Entity('login_session')
export class LoginSession {
  /** SHA-256 of the token, in hex. */
  @IdColumn()
  tokenHash!: string;

  @RefColumn(() => Account, { onDelete: 'CASCADE' })
  accountId!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @InstantColumn()
  beganAt!: number;

  @Index()
  @InstantColumn()
  expiresAt!: number;
}
