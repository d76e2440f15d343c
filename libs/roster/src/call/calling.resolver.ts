import { Allow, type Caller, CurrentCaller } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { CallTurnoutInput, CallTurnoutPayload, TurnoutCall } from './call.types.js';
import { Calling } from './calling.service.js';

const CallTurnoutResult = refusable('CallTurnoutResult', () => CallTurnoutPayload);

@Resolver()
export class CallingResolver {
  constructor(@Inject(Calling) private readonly calling: Calling) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => TurnoutCall, {
    nullable: true,
    description: 'How a turnout was called the last time; null while it was not.',
  })
  turnoutCall(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, description: 'Which turnout.' }) turnoutId: string,
  ): Promise<TurnoutCall | null> {
    return this.calling.told(caller, turnoutId);
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => CallTurnoutResult, {
    description:
      'Calls a turnout: keeps who came, and puts the roster of the morning in the place of the posted one. Every gate is asked again; a seat that one does not give is not given and is told.',
  })
  async callTurnout(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'Who came, and who does what.' }) input: CallTurnoutInput,
  ): Promise<CallTurnoutPayload> {
    const { key, ...given } = input;
    const { call, turnout } = await this.calling.confirm(caller, given, key ?? null);
    return Object.assign(new CallTurnoutPayload(), { turnout, call: await this.calling.tell(call) });
  }
}
