import { AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import { Database } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { haulOutInForce, liftSlotsOf, slotStandingsOf } from './haul-out.records.js';
import { HaulOut } from './haul-out.entity.js';
import { LiftSlot, type LiftSlotKind } from './lift-slot.entity.js';
import { slotsLeft } from './slots-left.js';
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
    description: 'When she can be lifted back, in order of time, released ones among them; at most 50.',
  })
  liftSlots(@Parent() haulOut: HaulOut): Promise<LiftSlot[]> {
    return liftSlotsOf(this.database.read, haulOut.id);
  }

  @ResolveField(() => LiftSlot, {
    description:
      'The slot to be made: the one booked as gate, or once that is released the next that is left.',
  })
  async gate(@Parent() haulOut: HaulOut): Promise<LiftSlot> {
    const gate = await this.leftAs(haulOut, 'gate');
    if (!gate)
      throw new Error('A haul-out without a slot to aim at: neither an import nor a release lets that be');
    return gate;
  }

  @ResolveField(() => LiftSlot, {
    nullable: true,
    description:
      'The slot that is booked in case the gate is missed; null where it is released or the gate now.',
  })
  fallback(@Parent() haulOut: HaulOut): Promise<LiftSlot | null> {
    return this.leftAs(haulOut, 'fallback');
  }

  private async leftAs(haulOut: HaulOut, wanted: LiftSlotKind): Promise<LiftSlot | null> {
    const left = slotsLeft(await slotStandingsOf(this.database.read, haulOut.id));
    return left.find(({ role }) => role === wanted)?.slot ?? null;
  }
}
