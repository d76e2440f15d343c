import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity } from 'typeorm';
import { Piece } from './piece.entity.js';

/** A line in the story of a piece. Lines are only added. */
@Entity('piece_note')
export class PieceNote {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Piece, { onDelete: 'CASCADE' })
  pieceId!: string;

  @TextColumn()
  words!: string;

  @TextColumn()
  enteredBy!: string;

  /** What the yard's clock said. */
  @InstantColumn()
  yardAt!: number;
}
