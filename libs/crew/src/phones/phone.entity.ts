import { IdColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity } from 'typeorm';

/** Where somebody is rung up. Between them and the coordinator: nobody else reads it, the trail does not have it. */
@Entity('volunteer_phone')
export class PhoneEntity {
  /** No foreign key: the number follows its person through a new reading of the yard document. */
  @IdColumn()
  volunteerId!: string;

  @RefColumn(null)
  organisationId!: string;

  /** As one dials it. */
  @TextColumn()
  number!: string;
}
