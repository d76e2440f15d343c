import { Organisation } from '@ribband/access';
import { DayColumn, IdColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';

/** When stock for a piece that has none is expected. */
@Entity('stock_promise')
@Unique(['organisationId', 'piece'])
export class StockPromise {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** Key of the hull's element. */
  @TextColumn()
  piece!: string;

  @DayColumn()
  expectedOn!: string;

  /** The day that was promised first, however often it was put off. */
  @DayColumn({ nullable: true })
  promisedOn!: string | null;

  @TextColumn({ nullable: true })
  note!: string | null;

  @TextColumn()
  enteredBy!: string;
}
