import type { Type } from '@nestjs/common';
import { createUnionType } from '@nestjs/graphql';
import { Refusal } from './refusal.js';

type Outcome = Type<object>;
type OneOf<T> = T extends readonly Type<infer I>[] ? I : T extends Type<infer I> ? I : never;

/**
 * The result of a mutation that people meet: what it made, or the reason why not.
 *
 *   export const TakePlaceResult = refusable('TakePlaceResult', () => TakePlacePayload);
 *   export type TakePlaceResult = typeof TakePlaceResult;
 *
 *   @Mutation(() => TakePlaceResult) takePlace(...): Promise<TakePlacePayload>
 *
 * The use case just calls `refuse`; the interceptor hands the refusal over as a value. With several payloads
 * (`() => [A, B]`) they must be told apart by class, so return instances.
 */
export function refusable<T extends Outcome | readonly Outcome[]>(
  name: string,
  payload: () => T,
): OneOf<T> | Refusal {
  const payloads = (): Outcome[] => {
    const given = payload();
    return Array.isArray(given) ? [...(given as Outcome[])] : [given as Outcome];
  };
  return createUnionType({
    name,
    description: 'What came of it, or the reason why not.',
    types: () => [...payloads(), Refusal] as const,
    resolveType(value: object) {
      if (value instanceof Refusal) return Refusal;
      const classes = payloads();
      return (
        classes.find((candidate) => value instanceof candidate) ??
        (classes.length === 1 ? classes[0] : undefined)
      );
    },
  }) as unknown as OneOf<T> | Refusal;
}
