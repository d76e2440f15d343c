import { Organisation } from '@ribband/access';
import { FlagColumn, IdColumn, InstantColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity } from 'typeorm';
import { HullElement } from './hull-element.entity.js';

/** What somebody saw at the yard: a piece of the hull is open, or it is shut. Rows are only added; the newest counts. */
@Entity('element_report')
export class ElementReport {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => HullElement, { onDelete: 'CASCADE' })
  elementId!: string;

  @FlagColumn()
  isOpen!: boolean;

  /** Who saw it; need not be the one who writes it down. */
  @TextColumn()
  seenBy!: string;

  /** What the yard's clock said. */
  @InstantColumn()
  yardAt!: number;

  @InstantColumn()
  enteredAt!: number;

  @TextColumn()
  enteredBy!: string;

  @TextColumn({ nullable: true })
  note!: string | null;
}
