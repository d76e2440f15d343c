import { setImmediate as breathe } from 'node:timers/promises';
import { type Stay, staysOf } from '@ribband/crew';
import { Injectable } from '@nestjs/common';
import type { YardRecords } from '../problem/yard-records.js';
import type { LoadedYard } from './load-yard.js';

/** Sets of turnouts that are remembered: those of a few yards, and of the last changes. */
const mostRemembered = 8;

/**
 * Works out when everybody is expected. Laying a rule out over two years takes some milliseconds, so what was worked
 * out for the same words and the same turnouts is remembered, and other work gets its turn in between.
 */
@Injectable()
export class Expected {
  /** By the turnouts, then by what somebody said. */
  readonly #remembered = new Map<string, Map<string, Stay[]>>();

  async at({ records, hands }: LoadedYard): Promise<YardRecords> {
    const turnouts = records.turnouts.filter((turnout) => turnout.endsAt > records.now);
    const known = this.#knownFor(JSON.stringify([records.timeZone, turnouts]));
    const expected: YardRecords['hands'] = [];
    for (const { rules, exceptions, ...hand } of hands) {
      const said = JSON.stringify([rules, exceptions]);
      let stays = known.get(said);
      if (!stays) {
        await breathe();
        stays = staysOf(rules, exceptions, turnouts, records.timeZone);
        known.set(said, stays);
      }
      expected.push({ ...hand, stays });
    }
    return { ...records, hands: expected };
  }

  #knownFor(turnouts: string): Map<string, Stay[]> {
    const known = this.#remembered.get(turnouts) ?? new Map<string, Stay[]>();
    this.#remembered.delete(turnouts);
    this.#remembered.set(turnouts, known);
    for (const oldest of this.#remembered.keys()) {
      if (this.#remembered.size <= mostRemembered) break;
      this.#remembered.delete(oldest);
    }
    return known;
  }
}
