import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, JsonColumn, OneOfColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import type { Side } from '../openings/hull-element.entity.js';

/** Where the shipwright wants the butts of the strakes that are hung anew. One a side. */
@Entity('layout_choice')
@Unique(['organisationId', 'side'])
export class LayoutChoice {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @OneOfColumn(['port', 'starboard'])
  side!: Side;

  @JsonColumn()
  butts!: { strake: number; bay: number }[];

  @TextColumn()
  by!: string;

  /** Why, where a rule or a guide is not kept, and whatever else one will want to know. */
  @TextColumn()
  reason!: string;

  @InstantColumn()
  chosenAt!: number;
}
