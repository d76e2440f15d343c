import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, JsonColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

/** One thing of the round: seen to, or why not. */
export interface RoundItem {
  words: string;
  isDone: boolean;
  note: string | null;
}

/** The end of a turnout: somebody by name went round, and everybody who was there is accounted for. */
@Entity('closing_round')
@Unique(['turnoutId'])
export class ClosingRoundEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => TurnoutEntity, { onDelete: 'CASCADE', indexed: false })
  turnoutId!: string;

  @JsonColumn()
  items!: RoundItem[];

  /** How many were accounted for. */
  @JsonColumn()
  accountedIds!: string[];

  @TextColumn()
  closedBy!: string;

  /** By the yard's clock. */
  @InstantColumn()
  closedAt!: number;
}

/** The organisation's own list of what is looked at; a yard without one uses the usual one. */
@Entity('closing_list')
export class ClosingListEntity {
  @IdColumn()
  organisationId!: string;

  @JsonColumn()
  items!: string[];
}

/** The usual list. Common practice, no source, but for the last: 29 CFR 1915.84 asks for it. */
export const usualRound = [
  'Oily rags are in the closed metal bin, out of the shed',
  'The dust extractor is off and its bag looked at',
  'Heaters are off and cold',
  'Power is off at the board',
  'A later look was taken wherever there was hot work, and a time for another is agreed',
  'Ladders are down, gates are locked',
  'Everyone is accounted for, by sight or by voice',
];
