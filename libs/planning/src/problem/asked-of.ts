import {
  type ConsentKind,
  consentAskedFor,
  consentKinds,
  consentMissing,
  hazardsAvoided,
} from '@ribband/crew';
import type { HandRecord, TaskRecord } from './yard-records.js';

/**
 * From which kinds of work somebody is kept: by themselves ("no ladders") or because no parent has said yes to it. A
 * kind is a hazard's code, or 'light' for work without one. Only kinds from which somebody is kept are named, so that a
 * yard where nobody asks for anything has the same plan as before.
 */
export class AskedOf {
  readonly kinds: readonly string[];
  readonly #kept = new Map<string, ReadonlySet<string>>();

  constructor(hands: readonly HandRecord[], today: string) {
    for (const hand of hands) {
      const kept = new Set([...hazardsAvoided(hand.ratherNots ?? []), ...withoutConsent(hand, today)]);
      if (kept.size > 0) this.#kept.set(hand.id, kept);
    }
    this.kinds = [...new Set([...this.#kept.values()].flatMap((kinds) => [...kinds]))].sort();
  }

  /** The kinds that a task has, of those from which somebody is kept. */
  ofTask({ hazards = [] }: Pick<TaskRecord, 'hazards'>): string[] {
    const ofIt = new Set<string>([...hazards, ...consentAskedFor(hazards)]);
    return this.kinds.filter((kind) => ofIt.has(kind));
  }

  isKeptFrom(handId: string, kind: string): boolean {
    return this.#kept.get(handId)?.has(kind) ?? false;
  }
}

const kindNames = Object.keys(consentKinds) as ConsentKind[];

function withoutConsent(hand: HandRecord, today: string): ConsentKind[] {
  if (hand.consents === undefined) return [];
  const asked = { bornOn: hand.bornOn, consents: hand.consents };
  return kindNames.flatMap((kind) =>
    consentMissing(asked, { hazards: kind === 'light' ? [] : [kind] }, today),
  );
}
