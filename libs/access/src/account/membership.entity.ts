import { IdColumn, OneOfColumn, RefColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { type Role, roles } from '../caller.js';
import { Organisation } from '../organisation/organisation.entity.js';
import { Account } from './account.entity.js';

/** What an account is at a yard. */
@Entity('membership')
@Unique(['organisationId', 'accountId'])
export class Membership {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Account, { onDelete: 'CASCADE' })
  accountId!: string;

  @OneOfColumn(roles)
  role!: Role;

  /** The person's entry in the crew's list (kept by another room). */
  @RefColumn(null, { nullable: true })
  volunteerId!: string | null;
}
