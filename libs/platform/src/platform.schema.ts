import { YardClockRow } from './clock/yard-clock.entity.js';
import { ComputeJob } from './computing/compute-job.entity.js';
import { Revision } from './computing/revision.entity.js';
import type { SchemaClass } from './database/store.js';
import { Platform1764000000000 } from './migrations/1764000000000-platform.js';
import { Messages1764100200001 } from './migrations/1764100200001-messages.js';
import { Message, MessageChoice, QuietHours } from './outbox/message.entity.js';

export const platformEntities: SchemaClass[] = [
  YardClockRow,
  Revision,
  ComputeJob,
  Message,
  MessageChoice,
  QuietHours,
];
export const platformMigrations: SchemaClass[] = [Platform1764000000000, Messages1764100200001];
