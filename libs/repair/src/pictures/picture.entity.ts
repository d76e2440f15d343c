import { Organisation } from '@ribband/access';
import {
  IdColumn,
  InstantColumn,
  IntegerColumn,
  OneOfColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Entity } from 'typeorm';
import { Piece } from '../pieces/piece.entity.js';
import { pictureTypes, type PictureType } from './clean-picture.js';

/** A picture of a piece. Its row stays when the picture is taken down, with who did it and why. */
@Entity('picture')
export class PictureEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Piece, { onDelete: 'CASCADE' })
  pieceId!: string;

  @OneOfColumn(pictureTypes)
  type!: PictureType;

  /** Pixels. */
  @IntegerColumn()
  width!: number;

  @IntegerColumn()
  height!: number;

  @IntegerColumn()
  byteCount!: number;

  /** SHA-256 of the bytes, hexadecimal. */
  @TextColumn()
  hash!: string;

  @TextColumn({ nullable: true })
  caption!: string | null;

  @TextColumn()
  addedBy!: string;

  /** The account that added it; null where it came with a yard document. */
  @RefColumn(null, { nullable: true, indexed: false })
  addedByAccountId!: string | null;

  @InstantColumn()
  addedAt!: number;

  @InstantColumn({ nullable: true })
  removedAt!: number | null;

  @TextColumn({ nullable: true })
  removedBy!: string | null;

  @TextColumn({ nullable: true })
  removeReason!: string | null;
}

/** The bytes, apart, so that lists of pictures do not carry them. Base 64, which both databases keep as text. */
@Entity('picture_bytes')
export class PictureBytes {
  @IdColumn()
  pictureId!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @TextColumn()
  base64!: string;
}
