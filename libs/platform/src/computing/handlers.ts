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
    const found = new Map<string, ComputeHandler[]>();
    for (const provider of this.discovery.getProviders()) {
      const name = provider.metatype
        ? (Reflect.getMetadata(computeJobKey, provider.metatype) as ComputeJobName | undefined)
        : undefined;
      if (name) found.set(name, [...(found.get(name) ?? []), provider.instance as ComputeHandler]);
    }
    const problems: string[] = [];
    for (const name of computeJobNames) {
      const [handler, ...others] = found.get(name) ?? [];
      if (handler && others.length === 0) this.handlers.set(name, handler);
      else problems.push(`the computing job "${name}" has ${handler ? others.length + 1 : 'no'} handlers`);
    }
    if (problems.length > 0) throw new Error(`Cannot start: ${problems.join('; ')}`);
  }

  get(name: string): ComputeHandler | undefined {
    return this.handlers.get(name);
  }
}
