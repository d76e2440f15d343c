import { Organisation } from '@ribband/access';
import { IdColumn, RefColumn } from '@ribband/platform';
import { Entity } from 'typeorm';
import { TallyEntity } from './tally.entity.js';

/** A tally that came with a key, so that the same one sent again is not entered twice. */
@Entity('tally_key')
export class TallyKey {
  /** The key, with the account that it belongs to in front: nobody's key is anybody else's. */
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => TallyEntity, { onDelete: 'CASCADE' })
  tallyId!: string;
}
