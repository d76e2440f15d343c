import type { SchemaClass } from '@ribband/platform';
import { Planning1764000006000 } from './migrations/1764000006000-planning.js';
import { CareOdds1764408000001 } from './migrations/1764408000001-care-odds.js';
import { CareOddsEntity } from './fastenings/care-odds.entity.js';
import { PinnedPace } from './beliefs/pinned-pace.entity.js';
import { Outlook1764100700000 } from './migrations/1764100700000-outlook.js';
import { OutlookBefore1764415000001 } from './migrations/1764415000001-outlook-before.js';
import { AdviceEntity } from './outlook/advice.entity.js';
import { ForecastEntity } from './outlook/forecast.entity.js';
import { OutlookMark } from './outlook/outlook-mark.entity.js';
import { BaselineEntity } from './record/baseline.entity.js';
import { WhatIfEntity } from './what-if/what-if.entity.js';
import { WeekDraft1764418000002 } from './migrations/1764418000002-week-draft.js';
import { PlanInForceEntity } from './plans/plan-in-force.entity.js';
import { PlanInputEntity } from './plans/plan-input.entity.js';
import { PlanEntity } from './plans/plan.entity.js';
import { WeekDraftEntity } from './week/roster/week-draft.entity.js';

export const planningEntities: SchemaClass[] = [
  PlanInputEntity,
  PlanEntity,
  PlanInForceEntity,
  ForecastEntity,
  OutlookMark,
  AdviceEntity,
  WhatIfEntity,
  BaselineEntity,
  PinnedPace,
  CareOddsEntity,
  WeekDraftEntity,
];
export const planningMigrations: SchemaClass[] = [
  Planning1764000006000,
  Outlook1764100700000,
  CareOdds1764408000001,
  OutlookBefore1764415000001,
  WeekDraft1764418000002,
];
