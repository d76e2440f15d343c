import { Allow, type Caller, CurrentCaller } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { ForgetWhatIfPayload, SupposedInput, WhatIf, WhatIfPayload } from './what-if.types.js';
import { ApplyWhatIf } from './apply-what-if.service.js';
import { WhatIfs } from './what-ifs.service.js';

const WhatIfAsked = refusable('WhatIfResult', () => WhatIfPayload);
const WhatIfApplied = refusable('ApplyWhatIfResult', () => WhatIfPayload);
const WhatIfAgain = refusable('ReckonWhatIfResult', () => WhatIfPayload);
const WhatIfForgotten = refusable('ForgetWhatIfResult', () => ForgetWhatIfPayload);

@Resolver(() => WhatIf)
export class WhatIfResolver {
  constructor(
    @Inject(WhatIfs) private readonly whatIfs: WhatIfs,
    @Inject(ApplyWhatIf) private readonly applying: ApplyWhatIf,
  ) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => [WhatIf], { name: 'whatIfs', description: 'What was thought of, newest first; at most 30.' })
  list(@CurrentCaller() caller: Caller): Promise<WhatIf[]> {
    return this.whatIfs.list(caller);
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => WhatIfAsked, { description: 'Has a change reckoned on a copy; the plan in force goes on.' })
  async askWhatIf(
    @CurrentCaller() caller: Caller,
    @Args('name', { type: () => String, description: 'Its name.' }) name: string,
    @Args('changes', { type: () => [SupposedInput], description: 'What would be different; one to ten.' })
    changes: SupposedInput[],
  ): Promise<WhatIfPayload> {
    return Object.assign(new WhatIfPayload(), { whatIf: await this.whatIfs.ask(caller, name, changes) });
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => WhatIfAgain, { description: 'Has a what-if reckoned again, by the plan in force.' })
  async reckonWhatIf(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which.' }) id: string,
  ): Promise<WhatIfPayload> {
    return Object.assign(new WhatIfPayload(), { whatIf: await this.whatIfs.again(caller, id) });
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => WhatIfApplied, {
    description: 'Enters the changes of a what-if as far as they can be entered; a new plan follows.',
  })
  async applyWhatIf(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which; it has been reckoned by the plan in force.' })
    id: string,
  ): Promise<WhatIfPayload> {
    const applied = await this.applying.apply(caller, id);
    return Object.assign(new WhatIfPayload(), { whatIf: await this.whatIfs.told(applied) });
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => WhatIfForgotten, { description: 'Throws a what-if away.' })
  async forgetWhatIf(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which.' }) id: string,
  ): Promise<ForgetWhatIfPayload> {
    await this.whatIfs.forget(caller, id);
    return Object.assign(new ForgetWhatIfPayload(), { id });
  }
}
