import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  IntegerColumn,
  OneOfColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { Task } from '../tasks/task.entity.js';
import type { Side } from './hull-element.entity.js';

export const supportKinds = ['shore', 'brace', 'ribband'] as const;
export type SupportKind = (typeof supportKinds)[number];

/**
 * A shore, brace or ribband that holds her shape while she is open. It stands once a named person has seen it, or
 * once the work that sets it is done, and until it is struck.
 */
@Entity('hull_support')
@Unique(['organisationId', 'ref'])
export class HullSupport {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The key that yard documents use. */
  @TextColumn()
  ref!: string;

  @VersionColumn()
  version!: number;

  @OneOfColumn(supportKinds)
  kind!: SupportKind;

  /** Null: on both sides. */
  @OneOfColumn(['port', 'starboard'], { nullable: true })
  side!: Side | null;

  /** Both null: wherever something is opened. */
  @IntegerColumn({ nullable: true })
  firstFrame!: number | null;

  @IntegerColumn({ nullable: true })
  lastFrame!: number | null;

  /** The work that sets it. */
  @RefColumn(() => Task, { onDelete: 'CASCADE', nullable: true })
  taskId!: string | null;

  @DayColumn({ nullable: true })
  seenOn!: string | null;

  @TextColumn({ nullable: true })
  seenBy!: string | null;

  @DayColumn({ nullable: true })
  struckOn!: string | null;

  @TextColumn({ nullable: true })
  struckBy!: string | null;
}
