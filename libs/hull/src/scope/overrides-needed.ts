import { type Hull } from '../model/hull.js';
import { type OpeningLimit } from '../openings/limits.js';
import { brokenBy } from '../openings/may-open.js';
import { type OpeningSettings } from '../openings/settings.js';
import { type ScopedElement } from '../methods/scope.js';

/** A limit that the scope itself cannot keep: what is wanted open together at one frame is more than it allows. */
export interface OverrideNeeded {
  limit: OpeningLimit;
  /** Names of the frames whose drawing asks for it. */
  frames: string[];
}

/**
 * Limits that need the shipwright's written word before this scope can be planned at all: to draw a frame, every
 * plank of the scope over it is off at once. Without the word there is no plan, whatever the order.
 */
export function overridesNeeded(
  hull: Hull,
  elements: ScopedElement[],
  settings: OpeningSettings = {},
): OverrideNeeded[] {
  const needed = new Map<string, OverrideNeeded>();
  for (const frame of elements.filter((one) => one.kind === 'frame' && one.method === 'renew-frame-pieces'))
    for (const limit of brokenBy(
      hull,
      [frame.key, ...frame.alsoOpens, ...frame.touching.planksOver],
      settings,
    )) {
      const key = `${limit.rule} ${[...limit.elements].sort().join(' ')}`;
      const one = needed.get(key) ?? { limit, frames: [] };
      one.frames.push(frame.name);
      needed.set(key, one);
    }
  return [...needed.values()];
}
