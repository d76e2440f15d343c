import { Allow, AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import { outlineOf } from '@ribband/hull';
import { JSONDocument, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ID, Int, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { pointsOf } from './points.js';
import type { HullShape } from './hull-shape.entity.js';
import { HullShapePayload, HullShapeRecord, Pattern, PatternPayload } from './shape.types.js';
import { Shapes } from './shapes.service.js';

const SetHullShapeResult = refusable('SetHullShapeResult', () => HullShapePayload);
const PatternResult = refusable('PatternResult', () => PatternPayload);

@Resolver(() => HullShapeRecord)
export class ShapeResolver {
  constructor(@Inject(Shapes) private readonly shapes: Shapes) {}

  @AllowSignedIn()
  @Query(() => HullShapeRecord, {
    nullable: true,
    description: 'Her measured shape; null before it was entered.',
  })
  hullShape(@CurrentCaller() caller: Caller): Promise<HullShape | null> {
    return this.shapes.inForce(caller);
  }

  @AllowSignedIn()
  @Query(() => PatternResult, { description: 'The full-size pattern of one futtock.' })
  async pattern(
    @CurrentCaller() caller: Caller,
    @Args('piece', { type: () => ID, description: 'Key of the hull’s element.' }) piece: string,
  ): Promise<PatternPayload> {
    const found = await this.shapes.pattern(caller, piece);
    const pattern = Object.assign(new Pattern(), {
      piece: found.piece,
      name: found.name,
      sided: Math.round(found.sided),
      chord: Math.round(found.chord),
      sweep: Math.round(found.sweep),
      points: pointsOf(outlineOf(found)),
      farEdge: pointsOf(found.farOuter),
      bevels: found.bevels.slice(0, 200).map(({ along, degrees }) => ({ along: Math.round(along), degrees })),
    });
    return Object.assign(new PatternPayload(), { pattern });
  }

  @Allow('shipwright')
  @Mutation(() => SetHullShapeResult, {
    description: 'Enters her measured shape, or puts another in its place.',
  })
  async setHullShape(
    @CurrentCaller() caller: Caller,
    @Args('shape', { type: () => JSONDocument, description: 'The shape, whole.' }) shape: unknown,
    @Args('version', {
      type: () => Int,
      nullable: true,
      description: 'Its version that was read; null when there was none.',
    })
    version: number | null = null,
  ): Promise<HullShapePayload> {
    const hullShape = await this.shapes.enter(caller, shape, version);
    return Object.assign(new HullShapePayload(), { hullShape });
  }

  @ResolveField(() => [String], {
    description: 'Sections that stand out from their neighbours: measure them again.',
  })
  standOut(@Parent() shape: HullShape): string[] {
    return this.shapes.unfair(shape);
  }
}
