import { AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import { Inject } from '@nestjs/common';
import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { Shells } from './shell.service.js';
import { HullPiece, Shell } from './shell.types.js';

@Resolver(() => Shell)
export class ShellResolver {
  constructor(@Inject(Shells) private readonly shells: Shells) {}

  @AllowSignedIn()
  @Query(() => Shell, {
    nullable: true,
    description: 'The shell unrolled: what every piece is and will be; null before her outline is entered.',
  })
  shell(@CurrentCaller() caller: Caller): Promise<Shell | null> {
    return this.shells.shell(caller);
  }

  @AllowSignedIn()
  @Query(() => HullPiece, { description: 'One piece of the hull with its work and what stands against it.' })
  hullPiece(
    @CurrentCaller() caller: Caller,
    @Args('key', { type: () => ID, description: 'The hull’s key of a frame or plank, or the yard’s.' })
    key: string,
  ): Promise<HullPiece> {
    return this.shells.piece(caller, key);
  }
}
