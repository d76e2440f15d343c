import { Organisation } from '@ribband/access';
import { IdColumn, IntegerColumn, VersionColumn } from '@ribband/platform';
import { Field, Int, ObjectType } from '@nestjs/graphql';
import { Entity, ForeignKey } from 'typeorm';

/** What a yard has not set for itself. */
export const usualSettings = { lateHours: 48, staleHours: 12 } as const;

/** How a yard keeps its roster. No row: the usual values. */
@ObjectType('RosterSettings', { description: 'How the yard keeps its roster.' })
@Entity('roster_settings')
export class RosterSettingsEntity {
  @IdColumn()
  @ForeignKey(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @Field(() => Int, { description: 'Raised by every edit; 0 before the first.' })
  @VersionColumn()
  version!: number;

  @Field(() => Int, {
    description: 'Leaving a place later than so many hours before it starts is late: the standby is asked.',
  })
  @IntegerColumn()
  lateHours!: number;

  @Field(() => Int, {
    description: 'A morning sheet kept on a phone is not used any more once it is older than so many hours.',
  })
  @IntegerColumn()
  staleHours!: number;
}
