import { Field, ID, InputType, ObjectType } from '@nestjs/graphql';
import { refusable } from '@ribband/platform';
import { type Role, RoleEnum } from '../caller.js';

@ObjectType({ description: 'An account as its yard sees it.' })
export class AccountEntry {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => String, { description: 'The address that the person signs in with.' })
  email!: string;

  @Field(() => String, { description: 'The name that others see.' })
  name!: string;

  @Field(() => RoleEnum, { description: 'What the person is at this yard.' })
  role!: Role;

  @Field(() => ID, { nullable: true, description: "The person's entry in the crew's list." })
  volunteerId!: string | null;

  @Field(() => Boolean, { description: 'Whether the person has yet to sign in and choose a password.' })
  hasOneTimePassword!: boolean;
}

@InputType({ description: 'Somebody who shall be able to sign in.' })
export class OpenAccountInput {
  @Field(() => String, { description: 'An e-mail address; the person signs in with it.' })
  email!: string;

  @Field(() => String, { description: 'The name that others see, 1 to 100 characters.' })
  name!: string;

  @Field(() => RoleEnum, { description: 'What the person shall be at this yard.' })
  role!: Role;

  @Field(() => ID, { nullable: true, description: "The person's entry in the crew's list, if there is one." })
  volunteerId?: string | null;
}

@ObjectType({ description: 'The account that was opened.' })
export class OpenAccountPayload {
  @Field(() => AccountEntry, { description: 'The account.' })
  account!: AccountEntry;

  @Field(() => String, {
    description: 'The first password, shown only now. Hand it to the person, who must change it at once.',
  })
  oneTimePassword!: string;
}

@ObjectType({ description: 'The account with its new first password.' })
export class RenewPasswordPayload {
  @Field(() => AccountEntry, { description: 'The account.' })
  account!: AccountEntry;

  @Field(() => String, {
    description: 'The new first password, shown only now. Hand it to the person, who must change it at once.',
  })
  oneTimePassword!: string;
}

@ObjectType({ description: 'The account has no way in to the yard any more.' })
export class CloseAccountPayload {
  @Field(() => ID, { description: 'The account that was closed.' })
  accountId!: string;
}

@ObjectType({ description: 'The password was changed.' })
export class ChangePasswordPayload {
  @Field(() => Boolean, { description: 'Whether sessions on other devices were ended: they always are.' })
  otherSessionsEnded!: boolean;
}

export const OpenAccountResult = refusable('OpenAccountResult', () => OpenAccountPayload);
export const RenewPasswordResult = refusable('RenewPasswordResult', () => RenewPasswordPayload);
export const CloseAccountResult = refusable('CloseAccountResult', () => CloseAccountPayload);
export const ChangePasswordResult = refusable('ChangePasswordResult', () => ChangePasswordPayload);
