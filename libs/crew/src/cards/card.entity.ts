import { Organisation } from '@ribband/access';
import { DayColumn, IdColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity } from 'typeorm';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import { CardKind } from './card-kind.entity.js';

/** A card that a volunteer has shown. */
@Entity('card')
export class CardEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Volunteer, { onDelete: 'CASCADE' })
  volunteerId!: string;

  @RefColumn(() => CardKind)
  kindId!: string;

  @TextColumn()
  issuer!: string;

  /** Last day on which it counts, or null when it does not lapse. */
  @DayColumn({ nullable: true })
  expiresOn!: string | null;
}
