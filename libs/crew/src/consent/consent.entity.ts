import { DayColumn, IdColumn, JsonColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity } from 'typeorm';
import type { ConsentKind } from '../gates/consent.js';

/** A parent's yes for somebody under 18, for some kinds of work. It is withdrawn, never erased. */
@Entity('guardian_consent')
export class GuardianConsent {
  /** Begins with guardian_: news for the parent are sent to it. */
  @IdColumn()
  id!: string;

  @RefColumn(null)
  organisationId!: string;

  /** No foreign key: it follows its person through a new reading of the yard document. */
  @RefColumn(null)
  volunteerId!: string;

  @TextColumn()
  guardianName!: string;

  /** Where news of coming and leaving go; null for parents without. */
  @TextColumn({ nullable: true })
  guardianEmail!: string | null;

  @JsonColumn()
  kinds!: ConsentKind[];

  /** How it was given: on paper, by telephone. */
  @TextColumn()
  how!: string;

  @DayColumn()
  givenOn!: string;

  /** Who wrote it down. */
  @TextColumn()
  writtenBy!: string;

  /** The first day on which it does not count any more; null while it does. */
  @DayColumn({ nullable: true })
  withdrawnOn!: string | null;
}
