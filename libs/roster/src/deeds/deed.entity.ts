import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, JsonColumn, RefColumn, type Refusal, TextColumn } from '@ribband/platform';
import { Entity, Index } from 'typeorm';

/** What came of a deed: the row that it left, or why the yard said no. */
export type DeedAnswer = { id: string } | { refusal: Refusal };

/** Something asked with a key, so that asking again answers the same and does nothing twice. */
@Entity('place_deed')
@Index(['organisationId', 'askedAt'])
export class DeedEntity {
  /** The key, with the account that it belongs to in front: nobody's key is anybody else's. */
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** What was asked, whole: a key that comes with something else is refused. */
  @TextColumn()
  asked!: string;

  @InstantColumn()
  askedAt!: number;

  @JsonColumn()
  answer!: DeedAnswer;
}
