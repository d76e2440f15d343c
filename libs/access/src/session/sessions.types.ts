import { Field, ID, ObjectType } from '@nestjs/graphql';
import { refusable } from '@ribband/platform';
import { type Role, RoleEnum } from '../caller.js';
import { Organisation } from '../organisation/organisation.entity.js';

@ObjectType({ description: "The caller's own account." })
export class MyAccount {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => String, { description: 'The name that others see.' })
  name!: string;

  @Field(() => String, { description: 'The address that the caller signs in with.' })
  email!: string;
}

/** Other rooms add fields to it, such as the caller's entry in the crew's list. */
@ObjectType({ description: 'The caller.' })
export class Me {
  @Field(() => MyAccount, { description: "The caller's account." })
  account!: MyAccount;

  @Field(() => RoleEnum, { description: 'What the caller is at this yard.' })
  role!: Role;

  @Field(() => Organisation, { description: 'The yard.' })
  organisation!: Organisation;

  @Field(() => Boolean, { description: 'Whether the caller must change the password before anything else.' })
  mustChangePassword!: boolean;

  /** Not shown as it is: the crew's room shows the entry itself. */
  volunteerId!: string | null;
}

@ObjectType({ description: 'Signed in; the answer sets the session cookie.' })
export class SignInPayload {
  @Field(() => Me, { description: 'Who has signed in.' })
  me!: Me;
}

export const SignInResult = refusable('SignInResult', () => SignInPayload);
