import { Audit } from '@ribband/access';
import { YardDay } from '@ribband/crew';
import { localToInstant, RealClock, YardClock } from '@ribband/platform';
import { haulOutInForce } from '@ribband/repair';
import type { RosterAt, TestYard } from '../roster.fixture.js';
import { GrantReports } from './grant-reports.service.js';
import { Grants } from './grants.service.js';
import { HourEntries } from './hour-entries.service.js';
import { HourPapers } from './hour-papers.service.js';
import { HourPeriods } from './hour-periods.service.js';
import { HoursTold } from './hours-told.service.js';
import { SignOns } from './sign-ons.service.js';

/** The hours book's use cases over one connection. */
export function hoursAt({ database, bus, family, gate }: RosterAt) {
  const real = new RealClock();
  const clock = new YardClock(database, real);
  const audit = new Audit(real);
  const day = new YardDay(clock, database);
  day.connect(async (manager, id) => (await haulOutInForce(manager, id))?.timeZone ?? null);
  return {
    signOns: new SignOns(database, clock, real, day, audit, bus, family, gate),
    entries: new HourEntries(database, clock, real, day, audit, bus, family),
    periods: new HourPeriods(database, real, day, audit, bus),
    told: new HoursTold(database),
    papers: new HourPapers(database, day),
    grants: new Grants(database, real, audit),
    reports: new GrantReports(database, clock, real, day, audit),
    /** Makes the yard's clock stand at a local time. */
    async clockAt(yard: TestYard, on: string, time: string): Promise<void> {
      const at = localToInstant(on, time, 'America/Los_Angeles');
      await database.write((manager) => clock.set(manager, yard.organisationId, at));
    },
  };
}
