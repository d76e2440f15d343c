import type { SchemaClass } from '@ribband/platform';
import { Planning1764000006000 } from './migrations/1764000006000-planning.js';
import { PlanInForceEntity } from './plans/plan-in-force.entity.js';
import { PlanInputEntity } from './plans/plan-input.entity.js';
import { PlanEntity } from './plans/plan.entity.js';

export const planningEntities: SchemaClass[] = [PlanInputEntity, PlanEntity, PlanInForceEntity];
export const planningMigrations: SchemaClass[] = [Planning1764000006000];
