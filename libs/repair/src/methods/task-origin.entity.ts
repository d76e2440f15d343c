import { Organisation } from '@ribband/access';
import { IdColumn, IntegerColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { Task } from '../tasks/task.entity.js';

/** Which method made a task, on which piece of the hull, as which of its steps. */
@Entity('task_origin')
@Unique(['taskId'])
export class TaskOrigin {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Task, { onDelete: 'CASCADE', indexed: false })
  taskId!: string;

  /** Key of the element, as `libs/hull` writes it; `vessel` for the vessel as a whole, or a cause's key. */
  @TextColumn()
  element!: string;

  @TextColumn()
  step!: string;

  @TextColumn()
  methodKey!: string;

  @IntegerColumn()
  methodVersion!: number;
}
