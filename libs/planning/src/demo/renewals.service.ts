import type { Caller } from '@ribband/access';
import { CardEntity, Cards } from '@ribband/crew';
import { addDays, Database, daysBetween, instantToLocal, localToInstant } from '@ribband/platform';
import { Permit, Permits, SafetyTag, SafetyTags } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';

/** Something that is written down anew at an instant, before what was there runs out. */
export interface Renewal {
  at: number;
  enter: () => Promise<unknown>;
}

/** The days that go by, and by whose clock. */
interface DaysGone {
  now: number;
  /** The day on whose morning they are over. */
  until: string;
  zone: string;
  /** Before the first hand comes. */
  morning: string;
}

/** Whoever comes in the week after finds nothing about to run out. */
const ahead = 7;
const cardDays = 365;
const permitDays = 90;

/** What a yard renews while its days go by: inspections, permits of whole days, cards that people hold. */
@Injectable()
export class Renewals {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(SafetyTags) private readonly tags: SafetyTags,
    @Inject(Permits) private readonly permits: Permits,
    @Inject(Cards) private readonly cards: Cards,
  ) {}

  /** In order of time: each on the last day of what it takes the place of, by the services that people use. */
  async due(shipwright: Caller, days: DaysGone): Promise<Renewal[]> {
    const all = [
      ...(await this.inspections(shipwright, days)),
      ...(await this.wholeDayPermits(shipwright, days)),
      ...(await this.heldCards(shipwright, days)),
    ];
    return all.sort((a, b) => a.at - b.at);
  }

  private async inspections(shipwright: Caller, days: DaysGone): Promise<Renewal[]> {
    const { organisationId } = shipwright;
    const rows = await this.database.read.findBy(SafetyTag, { organisationId, withdrawnBy: IsNull() });
    return newest(rows, ({ kind, name }) => `${kind} ${name}`).flatMap((row) => {
      const { kind, name, inspectedOn, inspectedBy, expiresOn } = row;
      const length = Math.max(1, daysBetween(inspectedOn, expiresOn));
      let old = row.id;
      return lastDays(days, expiresOn, length).map(({ on, at }) => ({
        at,
        enter: async () => {
          const tag = { kind, name, inspectedOn: on, inspectedBy, expiresOn: addDays(on, length) };
          const { id } = await this.tags.hangTag(shipwright, tag);
          await this.tags.withdrawTag(shipwright, old);
          old = id;
        },
      }));
    });
  }

  /** Those of a single turnout are given on its day. */
  private async wholeDayPermits(shipwright: Caller, days: DaysGone): Promise<Renewal[]> {
    const { organisationId } = shipwright;
    const rows = await this.database.read.findBy(Permit, { organisationId, closedAt: IsNull() });
    const dated = rows
      .filter(({ kind }) => kind !== 'enclosed-space' && kind !== 'hot-work')
      .map((row) => ({ ...row, expiresOn: instantToLocal(row.expiresAt - 1, days.zone).day }));
    return newest(dated, ({ kind, taskId }) => `${kind} ${taskId ?? ''}`).flatMap(
      ({ kind, taskId, by, note, expiresOn }) =>
        lastDays(days, expiresOn, permitDays).map(({ on, at }) => ({
          at,
          enter: () =>
            this.permits.openPermit(shipwright, {
              ...{ kind, taskId, by, note, untilOn: addDays(on, permitDays) },
              ...{ oxygenPercent: null, flammablePercent: null },
            }),
        })),
    );
  }

  private async heldCards(shipwright: Caller, days: DaysGone): Promise<Renewal[]> {
    const { organisationId } = shipwright;
    const rows = await this.database.read.findBy(CardEntity, { organisationId });
    return newest(rows, ({ volunteerId, kindId }) => `${volunteerId} ${kindId}`).flatMap(
      ({ volunteerId, kindId, issuer, expiresOn }) =>
        lastDays(days, expiresOn ?? never, cardDays).map(({ on, at }) => ({
          at,
          enter: () =>
            this.cards.add(shipwright, { volunteerId, kindId, issuer, expiresOn: addDays(on, cardDays) }),
        })),
    );
  }
}

const never = '9999-12-31';

/** The one of each that counts longest. */
function newest<T extends { expiresOn: string | null }>(rows: readonly T[], keyOf: (row: T) => string): T[] {
  const kept = new Map<string, T>();
  for (const row of rows) {
    const known = kept.get(keyOf(row));
    if (!known || (known.expiresOn ?? never) < (row.expiresOn ?? never)) kept.set(keyOf(row), row);
  }
  return [...kept.values()];
}

/** The days on which something is renewed; what had run out before the days went by stays so. */
function lastDays(
  { now, until, zone, morning }: DaysGone,
  expiresOn: string,
  length: number,
): { on: string; at: number }[] {
  const today = instantToLocal(now, zone).day;
  const found: { on: string; at: number }[] = [];
  if (expiresOn < today) return found;
  for (let last = expiresOn; last <= addDays(until, ahead);) {
    const on = last < until ? last : until;
    found.push({ on, at: Math.max(now, localToInstant(on, morning, zone)) });
    last = addDays(on, length);
    if (on === until) break;
  }
  return found;
}
