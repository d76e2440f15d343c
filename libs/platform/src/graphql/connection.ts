import type { Type } from '@nestjs/common';
import { ArgsType, Field, Int, ObjectType } from '@nestjs/graphql';
import { refuse } from '../refusal/refusal.js';

const defaultPageSize = 50;
export const maxPageSize = 200;

/** How much of a list is wanted. */
@ArgsType()
export class PageArgs {
  @Field(() => Int, { defaultValue: defaultPageSize, description: 'How many at most: 1 to 200.' })
  first: number = defaultPageSize;

  @Field(() => String, { nullable: true, description: 'Go on after this cursor of an earlier page.' })
  after?: string | null;
}

@ObjectType({ description: 'Where a page of a list stands.' })
export class PageInfo {
  @Field(() => Boolean, { description: 'Whether there is more after it.' })
  hasNextPage!: boolean;

  @Field(() => Boolean, { description: 'Whether there is something before it.' })
  hasPreviousPage!: boolean;

  @Field(() => String, { nullable: true, description: 'The cursor of its first entry.' })
  startCursor!: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'The cursor of its last entry; hand it over as `after`.',
  })
  endCursor!: string | null;
}

interface EdgeOf<T> {
  cursor: string;
  node: T;
}

export interface ConnectionOf<T> {
  edges: EdgeOf<T>[];
  nodes: T[];
  pageInfo: PageInfo;
  totalCount: number;
}

/**
 * The Relay connection of a type: `export const TaskConnection = Connection('Task', () => Task)` makes
 * TaskConnection and TaskEdge.
 */
export function Connection<T extends object>(name: string, node: () => Type<T>): Type<ConnectionOf<T>> {
  @ObjectType(`${name}Edge`, { description: 'One entry of a list with its cursor.' })
  class Edge implements EdgeOf<T> {
    @Field(() => String, { description: 'Where the entry stands in the list; opaque.' })
    cursor!: string;

    @Field(() => node(), { description: 'The entry itself.' })
    node!: T;
  }

  @ObjectType(`${name}Connection`, { description: 'A page of a list.' })
  class Page implements ConnectionOf<T> {
    @Field(() => [Edge], { description: 'The entries with their cursors; at most 200.' })
    edges!: Edge[];

    @Field(() => [node()], { description: 'The entries without their cursors; at most 200.' })
    nodes!: T[];

    @Field(() => PageInfo, { description: 'Where the page stands.' })
    pageInfo!: PageInfo;

    @Field(() => Int, { description: 'How many entries the whole list has.' })
    totalCount!: number;
  }
  return Page;
}

/** Builds a page from its rows. */
export function connectionOf<T>(
  rows: { node: T; cursor: string }[],
  around: { totalCount: number; hasNextPage: boolean; hasPreviousPage: boolean },
): ConnectionOf<T> {
  return {
    edges: rows,
    nodes: rows.map((row) => row.node),
    totalCount: around.totalCount,
    pageInfo: {
      hasNextPage: around.hasNextPage,
      hasPreviousPage: around.hasPreviousPage,
      startCursor: rows[0]?.cursor ?? null,
      endCursor: rows.at(-1)?.cursor ?? null,
    },
  };
}

/** Refuses page sizes out of bounds. */
export function checkPage(page: PageArgs): void {
  if (page.first >= 1 && page.first <= maxPageSize) return;
  refuse('BAD_INPUT', `A page has 1 to ${maxPageSize} entries.`, {
    field: 'first',
    remedy: `Ask for ${maxPageSize} at most and go on with "after".`,
  });
}

/** Refuses a cursor that this list has not given out. */
export function badCursor(): never {
  refuse('BAD_INPUT', 'This cursor does not belong to this list.', {
    field: 'after',
    remedy: 'Hand over an endCursor of the same list, or leave it out to start again.',
  });
}
