import { Injectable } from '@nestjs/common';
import { idKind } from '@ribband/platform';
import type { Caller } from '../caller.js';

/** Fetches rows of one kind by id: those that the caller may see, in any order. */
export type NodeLoader = (ids: string[], caller: Caller) => Promise<{ id: string }[]>;

interface NodeKind {
  /** The name of its GraphQL type. */
  typeName: string;
  load: NodeLoader;
}

/** Knows how to find any row again by its id alone; each room registers its kinds. */
@Injectable()
export class NodeRegistry {
  private readonly kinds = new Map<string, NodeKind>();

  /**
   * @param kind the word that the ids begin with, such as 'task'
   * @param typeName the GraphQL type of its rows, which implements Node
   */
  register(kind: string, typeName: string, load: NodeLoader): void {
    if (this.kinds.has(kind)) throw new Error(`Two rooms register the ids that begin with ${kind}`);
    this.kinds.set(kind, { typeName, load });
  }

  /** The row, or null when there is none or the caller may not see it: the two read the same. */
  async find(id: string, caller: Caller): Promise<{ id: string } | null> {
    const kind = this.kinds.get(idKind(id) ?? '');
    if (!kind) return null;
    const rows = await kind.load([id], caller);
    const row = rows.find((one) => one.id === id);
    if (!row) return null;
    // GraphQL is told the type by name; the row itself stays as it is.
    const copy = Object.create(Object.getPrototypeOf(row) as object) as { id: string };
    return Object.assign(copy, row, { __typename: kind.typeName });
  }
}
