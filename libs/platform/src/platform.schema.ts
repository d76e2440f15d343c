import { YardClockRow } from './clock/yard-clock.entity.js';
import { ComputeJob } from './computing/compute-job.entity.js';
import { Revision } from './computing/revision.entity.js';
import type { SchemaClass } from './database/store.js';
import { Platform1764000000000 } from './migrations/1764000000000-platform.js';

export const platformEntities: SchemaClass[] = [YardClockRow, Revision, ComputeJob];
export const platformMigrations: SchemaClass[] = [Platform1764000000000];
