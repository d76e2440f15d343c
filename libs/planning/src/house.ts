import type { Type } from '@nestjs/common';
import { accessEntities, AccessModule, accessMigrations } from '@ribband/access';
import { crewEntities, crewMigrations, CrewModule } from '@ribband/crew';
import { platformEntities, platformMigrations, type Schema } from '@ribband/platform';
import { repairEntities, repairMigrations, RepairModule } from '@ribband/repair';
import { rosterEntities, rosterMigrations, RosterModule } from '@ribband/roster';
import { PlanningModule } from './planning.module.js';
import { planningEntities, planningMigrations } from './planning.schema.js';

/**
 * The rooms of the house, lowest first. They stand here, in the top room, so that the API, the workers and the tests have
 * the same ones.
 */
export const rooms: Type[] = [AccessModule, CrewModule, RepairModule, RosterModule, PlanningModule];

/** Everything that the rooms keep. */
export const schema: Schema = {
  entities: [
    ...platformEntities,
    ...accessEntities,
    ...crewEntities,
    ...repairEntities,
    ...rosterEntities,
    ...planningEntities,
  ],
  migrations: [
    ...platformMigrations,
    ...accessMigrations,
    ...crewMigrations,
    ...repairMigrations,
    ...rosterMigrations,
    ...planningMigrations,
  ],
};
