import { Inject, Injectable } from '@nestjs/common';
import { DiscoveryService } from '@nestjs/core';
import { type ComputeHandler, computeJobKey, type ComputeJobName, computeJobNames } from './handler.js';

/** Knows who computes what. */
@Injectable()
export class ComputeHandlers {
  private readonly handlers = new Map<string, ComputeHandler>();

  constructor(@Inject(DiscoveryService) private readonly discovery: DiscoveryService) {}

  /** Finds the handlers. @throws when a job has none, or two: such a process must not start */
  collect(): void {
    const counts = new Map<string, number>();
    for (const provider of this.discovery.getProviders()) {
      const name = provider.metatype
        ? (Reflect.getMetadata(computeJobKey, provider.metatype) as ComputeJobName | undefined)
        : undefined;
      if (!name) continue;
      counts.set(name, (counts.get(name) ?? 0) + 1);
      this.handlers.set(name, provider.instance as ComputeHandler);
    }
    const problems = computeJobNames
      .map((name) => ({ name, count: counts.get(name) ?? 0 }))
      .filter(({ count }) => count !== 1)
      .map(({ name, count }) => `the computing job "${name}" has ${count || 'no'} handlers`);
    if (problems.length > 0) throw new Error(`Cannot start: ${problems.join('; ')}`);
  }

  get(name: string): ComputeHandler | undefined {
    return this.handlers.get(name);
  }
}
