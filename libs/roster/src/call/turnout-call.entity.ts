import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, IntegerColumn, JsonColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import type { PlaceState } from '../places/place.entity.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

/** A place that the call put something else in the stead of. */
export interface ReplacedPlace {
  taskId: string;
  volunteerId: string | null;
  skillId: string | null;
  level: number;
  state: PlaceState;
  startsAt: number;
  endsAt: number;
}

/** Posted work that is not done, with the reason as it was said that morning. */
export interface FallenWork {
  taskId: string;
  why: string;
}

/** A turnout as it was called in the morning. Called again, it has a further row: nothing is written over. */
@Entity('turnout_call')
@Unique(['turnoutId', 'version'])
export class TurnoutCallEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => TurnoutEntity, { onDelete: 'CASCADE', indexed: false })
  turnoutId!: string;

  /** 1 for the first call of the turnout. */
  @IntegerColumn()
  version!: number;

  /** By the yard's clock. */
  @InstantColumn()
  calledAt!: number;

  /** Name of who called it. */
  @TextColumn()
  calledBy!: string;

  /** Names of people who are not in the crew's list: shown round and inducted, on no work. */
  @JsonColumn()
  visitors!: string[];

  @JsonColumn()
  fallen!: FallenWork[];

  /** Seats that a gate did not give when it was confirmed, in sentences. */
  @JsonColumn()
  turnedAway!: string[];

  /** The roster as it was before. */
  @JsonColumn()
  replaced!: ReplacedPlace[];
}
