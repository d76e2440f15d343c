import { AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import { Database } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { haulOutInForce, liftSlotsOf } from './haul-out.records.js';
import { HaulOut } from './haul-out.entity.js';
import { LiftSlot } from './lift-slot.entity.js';
import { Vessel } from './vessel.entity.js';

@Resolver(() => HaulOut)
export class HaulOutResolver {
  constructor(@Inject(Database) private readonly database: Database) {}

  @AllowSignedIn()
  @Query(() => HaulOut, {
    nullable: true,
    description: 'The haul-out in force; null before a yard was read in.',
  })
  haulOut(@CurrentCaller() caller: Caller): Promise<HaulOut | null> {
    return haulOutInForce(this.database.read, caller.organisationId);
  }

  @ResolveField(() => Vessel, { description: 'Who is ashore.' })
  vessel(@Parent() haulOut: HaulOut): Promise<Vessel> {
    return this.database.read.findOneByOrFail(Vessel, { id: haulOut.vesselId });
  }

  @ResolveField(() => [LiftSlot], {
    description: 'When she can be lifted back, in order of time; at most 50.',
  })
  liftSlots(@Parent() haulOut: HaulOut): Promise<LiftSlot[]> {
    return liftSlotsOf(this.database.read, haulOut.id);
  }

  @ResolveField(() => LiftSlot, { description: 'The slot to be made.' })
  gate(@Parent() haulOut: HaulOut): Promise<LiftSlot> {
    return this.database.read.findOneByOrFail(LiftSlot, { haulOutId: haulOut.id, kind: 'gate' });
  }

  @ResolveField(() => LiftSlot, {
    nullable: true,
    description: 'The slot that is booked in case the gate is missed.',
  })
  fallback(@Parent() haulOut: HaulOut): Promise<LiftSlot | null> {
    return this.database.read.findOneBy(LiftSlot, { haulOutId: haulOut.id, kind: 'fallback' });
  }
}
