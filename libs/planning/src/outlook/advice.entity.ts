import type { Advice } from '@ribband/engine';
import { InstantColumn, JsonColumn, TextColumn } from '@ribband/platform';
import { Entity, PrimaryColumn } from 'typeorm';

/** What would help most, by the newest plan that was looked at. */
@Entity('advice')
export class AdviceEntity {
  @PrimaryColumn('text')
  organisationId!: string;

  @TextColumn()
  planId!: string;

  @InstantColumn()
  madeAt!: number;

  /** Whole advice, and in words the changes that it ranks. */
  @JsonColumn()
  document!: { advice: Advice; words: string[] };
}
