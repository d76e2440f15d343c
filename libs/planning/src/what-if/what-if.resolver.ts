import { Allow, type Caller, CurrentCaller } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { ForgetWhatIfPayload, SupposedInput, WhatIf, WhatIfPayload } from './what-if.types.js';
import { WhatIfs } from './what-ifs.service.js';

const WhatIfAsked = refusable('WhatIfResult', () => WhatIfPayload);
const WhatIfForgotten = refusable('ForgetWhatIfResult', () => ForgetWhatIfPayload);

@Resolver(() => WhatIf)
export class WhatIfResolver {
  constructor(@Inject(WhatIfs) private readonly whatIfs: WhatIfs) {}

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
  @Mutation(() => WhatIfForgotten, { description: 'Throws a what-if away.' })
  async forgetWhatIf(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which.' }) id: string,
  ): Promise<ForgetWhatIfPayload> {
    await this.whatIfs.forget(caller, id);
    return Object.assign(new ForgetWhatIfPayload(), { id });
  }
}
