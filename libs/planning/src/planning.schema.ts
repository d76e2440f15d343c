import type { SchemaClass } from '@ribband/platform';
import { Planning1764000006000 } from './migrations/1764000006000-planning.js';
import { ForecastDay, ForecastEntity } from './forecast/forecast.entity.js';
import { Forecast1764100070001 } from './migrations/1764100070001-forecast.js';
import { PlanInForceEntity } from './plans/plan-in-force.entity.js';
import { PlanInputEntity } from './plans/plan-input.entity.js';
import { PlanEntity } from './plans/plan.entity.js';

export const planningEntities: SchemaClass[] = [
  PlanInputEntity,
  PlanEntity,
  PlanInForceEntity,
  ForecastEntity,
  ForecastDay,
];
export const planningMigrations: SchemaClass[] = [Planning1764000006000, Forecast1764100070001];
