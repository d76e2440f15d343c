import type { Type } from '@nestjs/common';
import { accessEntities, AccessModule, accessMigrations } from '@ribband/access';
import { crewEntities, crewMigrations, CrewModule } from '@ribband/crew';
import { platformEntities, platformMigrations, type Schema } from '@ribband/platform';
import { planningEntities, planningMigrations, PlanningModule } from '@ribband/planning';
import { repairEntities, repairMigrations, RepairModule } from '@ribband/repair';
import { rosterEntities, rosterMigrations, RosterModule } from '@ribband/roster';

/** The rooms of the house, lowest first. */
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
