import { FlagColumn, IdColumn, InstantColumn, TextColumn } from '@ribband/platform';
import { Entity } from 'typeorm';

/** Somebody who can sign in. */
@Entity('account')
export class Account {
  @IdColumn()
  id!: string;

  /** In small letters, without blanks around it. */
  @TextColumn({ unique: true })
  email!: string;

  @TextColumn()
  name!: string;

  /** Argon2id in its usual text form, salt included. */
  @TextColumn()
  passwordHash!: string;

  /** Whether the password was made by the server and shall be changed at the first sign-in. */
  @FlagColumn()
  hasOneTimePassword!: boolean;

  @InstantColumn()
  openedAt!: number;
}
