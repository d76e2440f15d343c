import type { SchemaClass } from '@ribband/platform';
import { Planning1764000006000 } from './migrations/1764000006000-planning.js';
import { PinnedPace } from './beliefs/pinned-pace.entity.js';
import { Outlook1764100700000 } from './migrations/1764100700000-outlook.js';
import { AdviceEntity } from './outlook/advice.entity.js';
import { ForecastEntity } from './outlook/forecast.entity.js';
import { OutlookMark } from './outlook/outlook-mark.entity.js';
import { BaselineEntity } from './record/baseline.entity.js';
import { WhatIfEntity } from './what-if/what-if.entity.js';
import { PlanInForceEntity } from './plans/plan-in-force.entity.js';
import { PlanInputEntity } from './plans/plan-input.entity.js';
import { PlanEntity } from './plans/plan.entity.js';

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
];
export const planningMigrations: SchemaClass[] = [Planning1764000006000, Outlook1764100700000];
