import { type Config, PlatformModule } from '@ribband/platform';
import { rooms, schema } from '@ribband/planning';
import { type DynamicModule, Module } from '@nestjs/common';

/** The same rooms as the API's, without HTTP: this process computes. */
@Module({})
export class WorkerModule {
  static forRoot(config: Config): DynamicModule {
    return {
      module: WorkerModule,
      imports: [PlatformModule.forRoot({ config, schema, computing: 'run' }), ...rooms],
    };
  }
}
