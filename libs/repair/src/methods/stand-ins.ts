import type { EntityManager } from 'typeorm';
import { MethodsRecord } from './methods.entity.js';
import type { MethodsDocument } from './methods-shape.js';

/** A task of the yard's own that stands for a step of a method on some element. */
export interface StandIn {
  ref: string;
  element: string;
  step: string;
}

/** The step's ref is its element's key and its own: which is which is told by the steps of the book. */
export function standInsIn({ book, ownTasks }: Pick<MethodsDocument, 'book' | 'ownTasks'>): StandIn[] {
  const steps = [...new Set(book.methods.flatMap((method) => method.steps.map(({ key }) => key)))].sort(
    (a, b) => b.length - a.length,
  );
  return Object.entries(ownTasks).flatMap(([stepRef, ref]) => {
    const step = steps.find((key) => stepRef.endsWith(`-${key}`));
    return step === undefined ? [] : [{ ref, element: stepRef.slice(0, -step.length - 1), step }];
  });
}

/** Those of a yard; none before it has methods. */
export async function standInsOf(manager: EntityManager, organisationId: string): Promise<StandIn[]> {
  const record = await manager.findOne(MethodsRecord, {
    select: { id: true, methods: true },
    where: { organisationId },
    order: { id: 'DESC' },
  });
  return record ? standInsIn(record.methods) : [];
}
