import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  InstantColumn,
  OneOfColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Entity } from 'typeorm';

export const incidentKinds = ['near-miss', 'hurt', 'damage'] as const;
export type IncidentKind = (typeof incidentKinds)[number];

/** Something that happened, or nearly did, in three lines from the yard; who owns it, and what was done. */
@Entity('incident')
export class IncidentEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @VersionColumn()
  version!: number;

  @OneOfColumn(incidentKinds)
  kind!: IncidentKind;

  @TextColumn()
  what!: string;

  @TextColumn()
  place!: string;

  /** Who was hurt or could have been. For director and coordinator only, and for who reported it. */
  @TextColumn({ nullable: true })
  who!: string | null;

  /** By the yard's clock. */
  @InstantColumn()
  reportedAt!: number;

  @TextColumn()
  reportedBy!: string;

  @RefColumn(null, { indexed: false })
  accountId!: string;

  /** Who sees to it; null while nobody does. */
  @RefColumn(null, { nullable: true, indexed: false })
  ownerId!: string | null;

  /** What is to be done. */
  @TextColumn({ nullable: true })
  followUp!: string | null;

  @DayColumn({ nullable: true })
  dueOn!: string | null;

  @InstantColumn({ nullable: true })
  closedAt!: number | null;

  @TextColumn({ nullable: true })
  closedBy!: string | null;

  /** What was done about it. */
  @TextColumn({ nullable: true })
  outcome!: string | null;

  /** A photograph as base 64, with nothing in it but what can be seen; null without. */
  @TextColumn({ nullable: true })
  picture!: string | null;

  /** Its kind of file. */
  @TextColumn({ nullable: true })
  pictureType!: string | null;
}
