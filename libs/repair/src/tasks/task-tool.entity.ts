import { Organisation } from '@ribband/access';
import { IdColumn, IntegerColumn, RefColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { Tool } from '../tools/tool.entity.js';
import { Task } from './task.entity.js';

/** A tool that a task holds while it runs. */
@Entity('task_tool')
@Unique(['taskId', 'toolId'])
export class TaskTool {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Task, { onDelete: 'CASCADE', indexed: false })
  taskId!: string;

  @RefColumn(() => Tool)
  toolId!: string;

  @IntegerColumn()
  count!: number;
}
