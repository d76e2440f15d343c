import { Inject } from '@nestjs/common';
import { Args, Context, Mutation, Query, Resolver } from '@nestjs/graphql';
import type { Caller } from '../caller.js';
import { AllowAnyone } from '../leave/allow.js';
import { CallerIfAny, type RequestContext } from '../leave/current-caller.js';
import { Whoami } from './whoami.js';
import { Sessions } from './sessions.js';
import { Me, SignInPayload, SignInResult } from './sessions.types.js';

@Resolver(() => Me)
export class SessionsResolver {
  constructor(
    @Inject(Sessions) private readonly sessions: Sessions,
    @Inject(Whoami) private readonly whoami: Whoami,
  ) {}

  @AllowAnyone()
  @Query(() => Me, { nullable: true, description: 'Who the caller is; null when nobody is signed in.' })
  me(@CallerIfAny() caller: Caller | null, @Context() context: RequestContext): Promise<Me> | null {
    return caller && this.whoami.describe(caller, context.mustChangePassword);
  }

  @AllowAnyone()
  @Mutation(() => SignInResult, { description: 'Begins a session and sets its cookie.' })
  async signIn(
    @Context() context: RequestContext,
    @Args('email', { type: () => String, description: 'The address of the account.' }) email: string,
    @Args('password', { type: () => String, description: 'Its password.' }) password: string,
  ): Promise<SignInPayload> {
    const session = await this.sessions.signIn(email, password, context.address);
    context.setSessionCookie(session.token, session.expiresAt);
    return { me: await this.whoami.describe(session.caller, session.mustChangePassword) };
  }

  @AllowAnyone()
  @Mutation(() => Boolean, { description: 'Ends the session; true also when there was none.' })
  async signOut(@Context() context: RequestContext): Promise<boolean> {
    if (context.sessionToken) await this.sessions.signOut(context.sessionToken);
    context.setSessionCookie(null, 0);
    return true;
  }
}
