import type { Type } from '@nestjs/common';
import { accessEntities, AccessModule, accessMigrations } from '@ribband/access';
import { crewEntities, crewMigrations, CrewModule } from '@ribband/crew';
import { platformEntities, platformMigrations, type Schema } from '@ribband/platform';

/** The rooms of the house, lowest first. */
export const rooms: Type[] = [AccessModule, CrewModule];

/** Everything that the rooms keep. */
export const schema: Schema = {
  entities: [...platformEntities, ...accessEntities, ...crewEntities],
  migrations: [...platformMigrations, ...accessMigrations, ...crewMigrations],
};
