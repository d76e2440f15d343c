import { Inject } from '@nestjs/common';
import { Args, Context, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import type { Caller } from '../caller.js';
import { Allow, AllowSignedIn } from '../leave/allow.js';
import { CurrentCaller, type RequestContext } from '../leave/current-caller.js';
import { Accounts } from './accounts.js';
import {
  AccountEntry,
  ChangePasswordPayload,
  ChangePasswordResult,
  CloseAccountPayload,
  CloseAccountResult,
  OpenAccountInput,
  OpenAccountPayload,
  OpenAccountResult,
  RenewPasswordPayload,
  RenewPasswordResult,
} from './accounts.types.js';

@Resolver(() => AccountEntry)
export class AccountsResolver {
  constructor(@Inject(Accounts) private readonly accountsService: Accounts) {}

  @Allow('director')
  @Query(() => [AccountEntry], {
    description: 'Everybody who can sign in at the yard, by name; at most 1000.',
  })
  async accounts(@CurrentCaller() caller: Caller): Promise<AccountEntry[]> {
    return this.accountsService.list(caller);
  }

  @Allow('director')
  @Mutation(() => OpenAccountResult, { description: 'Opens an account at the yard.' })
  async openAccount(
    @CurrentCaller() caller: Caller,
    @Args('input', { type: () => OpenAccountInput, description: 'Who it is for.' }) input: OpenAccountInput,
  ): Promise<OpenAccountPayload> {
    const { entry, oneTimePassword } = await this.accountsService.open(caller, {
      ...input,
      volunteerId: input.volunteerId ?? null,
    });
    return { account: entry, oneTimePassword };
  }

  @Allow('director')
  @Mutation(() => RenewPasswordResult, {
    description: 'Gives somebody who has forgotten theirs a new first password, and ends their sessions.',
  })
  async renewPassword(
    @CurrentCaller() caller: Caller,
    @Args('accountId', { type: () => ID, description: 'Whose.' }) accountId: string,
  ): Promise<RenewPasswordPayload> {
    const { entry, oneTimePassword } = await this.accountsService.renewPassword(caller, accountId);
    return { account: entry, oneTimePassword };
  }

  @Allow('director')
  @Mutation(() => CloseAccountResult, {
    description: "Takes somebody's way in to the yard away. What they did stays in the records.",
  })
  async closeAccount(
    @CurrentCaller() caller: Caller,
    @Args('accountId', { type: () => ID, description: 'Whose.' }) accountId: string,
  ): Promise<CloseAccountPayload> {
    await this.accountsService.close(caller, accountId);
    return { accountId };
  }

  @AllowSignedIn({ evenWithOneTimePassword: true })
  @Mutation(() => ChangePasswordResult, {
    description: "Changes the caller's password and ends their sessions on other devices.",
  })
  async changePassword(
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
    @Args('old', { type: () => String, description: 'The password until now.' }) old: string,
    @Args('new', { type: () => String, description: 'The new one: 10 to 200 characters.' }) wanted: string,
  ): Promise<ChangePasswordPayload> {
    await this.accountsService.changePassword(caller, old, wanted, context);
    return { otherSessionsEnded: true };
  }
}
