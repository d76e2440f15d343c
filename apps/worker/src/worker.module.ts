import { accessEntities, AccessModule, accessMigrations } from '@ribband/access';
import { crewEntities, crewMigrations, CrewModule } from '@ribband/crew';
import { planningEntities, planningMigrations, PlanningModule } from '@ribband/planning';
import {
  type Config,
  platformEntities,
  platformMigrations,
  PlatformModule,
  type Schema,
} from '@ribband/platform';
import { repairEntities, repairMigrations, RepairModule } from '@ribband/repair';
import { rosterEntities, rosterMigrations, RosterModule } from '@ribband/roster';
import { type DynamicModule, Module } from '@nestjs/common';

/** Everything that the rooms keep: the same as the API's. */
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

/** The same rooms as the API's, without HTTP: this process computes. */
@Module({})
export class WorkerModule {
  static forRoot(config: Config): DynamicModule {
    return {
      module: WorkerModule,
      imports: [
        PlatformModule.forRoot({ config, schema, computing: 'run' }),
        AccessModule,
        CrewModule,
        RepairModule,
        RosterModule,
        PlanningModule,
      ],
    };
  }
}
