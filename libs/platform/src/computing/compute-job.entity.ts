import { Entity, Index } from 'typeorm';
import {
  IdColumn,
  InstantColumn,
  IntegerColumn,
  JsonColumn,
  OneOfColumn,
  RefColumn,
  TextColumn,
} from '../database/columns.js';

export const computeJobStates = ['waiting', 'running', 'done', 'failed'] as const;
export type ComputeJobState = (typeof computeJobStates)[number];

/** A computation that was asked for. The row is the truth; a queue only nudges. */
@Entity('compute_job')
@Index(['organisationId', 'name', 'state'])
@Index(['state', 'dueAt'])
export class ComputeJob {
  @IdColumn()
  id!: string;

  @RefColumn(null, { indexed: false })
  organisationId!: string;

  /** Which handler runs it. */
  @TextColumn()
  name!: string;

  /** The newest state of the records that it was asked for. */
  @IntegerColumn()
  revision!: number;

  /** What changed, in words. */
  @TextColumn()
  why!: string;

  @JsonColumn()
  payload!: unknown;

  @OneOfColumn(computeJobStates)
  state!: ComputeJobState;

  @InstantColumn()
  askedAt!: number;

  /** Not before this instant: a short quiet time after an edit, or the wait before another try. */
  @InstantColumn()
  dueAt!: number;

  @InstantColumn({ nullable: true })
  startedAt!: number | null;

  @InstantColumn({ nullable: true })
  finishedAt!: number | null;

  /** How often it was started. */
  @IntegerColumn()
  tries!: number;

  /** The run that holds it; a result of any other run is refused. */
  @TextColumn({ nullable: true })
  runId!: string | null;

  /** When the run is taken for dead unless it says that it lives. */
  @InstantColumn({ nullable: true })
  leaseUntil!: number | null;

  /** The last progress that the run wrote down; its shape is the handler's. */
  @JsonColumn({ nullable: true })
  progress!: unknown;

  /** Why it failed or will be tried again, fit to be shown. */
  @TextColumn({ nullable: true })
  message!: string | null;
}
