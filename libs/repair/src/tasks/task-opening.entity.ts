import { Organisation } from '@ribband/access';
import { IdColumn, OneOfColumn, RefColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { HullElement } from '../openings/hull-element.entity.js';
import { Task } from './task.entity.js';

/** A task opens an element at its start, or closes it at its end. */
@Entity('task_opening')
@Unique(['taskId', 'elementId', 'does'])
export class TaskOpening {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Task, { onDelete: 'CASCADE', indexed: false })
  taskId!: string;

  @RefColumn(() => HullElement)
  elementId!: string;

  @OneOfColumn(['opens', 'closes'])
  does!: 'opens' | 'closes';
}
