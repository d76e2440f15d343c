import type { SchemaClass } from '@ribband/platform';
import type { Provider } from '@nestjs/common';
import { GrantEntity } from './grant.entity.js';
import { GrantReportEntity, HourClaimEntity } from './grant-report.entity.js';
import { GrantReports } from './grant-reports.service.js';
import { GrantsResolver } from './grants.resolver.js';
import { Grants } from './grants.service.js';
import { HourEntryEntity } from './hour-entry.entity.js';
import { HourEntries } from './hour-entries.service.js';
import { HourPapers } from './hour-papers.service.js';
import { HourPeriodEntity } from './hour-period.entity.js';
import { HourPeriods } from './hour-periods.service.js';
import { HourRateEntity } from './hour-rate.entity.js';
import { HoursTold } from './hours-told.service.js';
import { HoursResolver } from './hours.resolver.js';
import { SignOns } from './sign-ons.service.js';
import { WorkKindEntity } from './work-kind.entity.js';

/** What the hours book adds to the room. */
export const hoursEntities: SchemaClass[] = [
  WorkKindEntity,
  HourEntryEntity,
  HourPeriodEntity,
  GrantEntity,
  HourRateEntity,
  GrantReportEntity,
  HourClaimEntity,
];

export const hoursProviders: Provider[] = [
  SignOns,
  HourEntries,
  HourPeriods,
  HoursTold,
  HourPapers,
  Grants,
  GrantReports,
  HoursResolver,
  GrantsResolver,
];
