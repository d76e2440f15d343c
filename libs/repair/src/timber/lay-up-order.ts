import type { LayUp, LayUpWish } from '@ribband/hull';

/** What the thread is started with: one table for each kind of stock. */
export interface LayUpOrder {
  tables: LayUpWish[];
}

/** Several tables as one answer. */
export const joined = (parts: LayUp[]): LayUp => ({
  placed: parts.flatMap((part) => part.placed),
  wanting: parts.flatMap((part) => part.wanting),
  stockUsed: parts.reduce((sum, part) => sum + part.stockUsed, 0),
  stockAtLeast: parts.reduce((sum, part) => sum + part.stockAtLeast, 0),
});
