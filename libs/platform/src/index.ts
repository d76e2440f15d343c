export { Bus } from './bus/bus.js';
export {
  addDays,
  checkRule,
  checkTimeZone,
  daysBetween,
  expandRule,
  instantToLocal,
  instantToText,
  isoWeek,
  isTime,
  localToInstant,
  longestExpansionYears,
  type Recurrence,
  startOfWeek,
  textToInstant,
  weekdayOf,
} from './calendar/index.js';
export * from './calendar/index.js';
export { RealClock } from './clock/real-clock.js';
export { YardClock } from './clock/yard-clock.js';
export { ComputeJob, type ComputeJobState, computeJobStates } from './computing/compute-job.entity.js';
export {
  type ComputeControl,
  type ComputeHandler,
  ComputeJobHandler,
  type ComputeTask,
  GiveUp,
  RunLostError,
  Stopped,
  type StopReason,
} from './computing/handler.js';
export { type ComputeNews, computeTopic } from './computing/runner.js';
export { Revisions } from './computing/revisions.js';
export { Config, ConfigError } from './config/config.js';
export * from './database/columns.js';
export { Database } from './database/database.js';
export { differences, migrate } from './database/migrations.js';
export { DatabaseInUseError } from './database/process-lock.js';
export {
  type DatabaseKind,
  openScratchDatabase,
  type ScratchDatabase,
  scratchKinds,
  scratchPlace,
} from './database/scratch.js';
export type { Schema, SchemaClass, Store } from './database/store.js';
export * as column from './database/tables.js';
export { createTable } from './database/tables.js';
export {
  Connection,
  type ConnectionOf,
  connectionOf,
  maxPageSize,
  PageArgs,
  PageInfo,
} from './graphql/connection.js';
export { Node } from './graphql/node.js';
export { pageOf, paginate } from './graphql/paginate.js';
export { DateTime, JSONDocument, LocalDate, LocalTime } from './graphql/scalars.js';
export { idKind, newId } from './ids/ids.js';
export { log, requestIds } from './log/log.js';
export {
  maySwitchOff,
  type MessageKind,
  messageKindNames,
  messageKinds,
  type MessageWay,
  messageWays,
} from './outbox/message-kinds.js';
export { type MailState, mailStates, Message, MessageChoice, QuietHours } from './outbox/message.entity.js';
export { type MessageNews, Messages, messageTopic, type News, type Wording } from './outbox/messages.js';
export { Postman } from './outbox/postman.js';
export { type QuietTime, usualQuietTime } from './outbox/quiet-time.js';
export { type Contact, type FindContact, Recipients } from './outbox/recipients.js';
export { Health, type Readiness } from './health/health.js';
export { type Computing, PlatformModule } from './platform.module.js';
export { endOnUnheardRejections, stopOnSignals } from './process/stop-on-signals.js';
export { platformEntities, platformMigrations } from './platform.schema.js';
export { refusable } from './refusal/refusable.js';
export {
  expectVersion,
  Fact,
  Refusal,
  refusal,
  type RefusalDetails,
  RefusalError,
  refuse,
} from './refusal/refusal.js';
export { RefusalCode, refusalCodes } from './refusal/refusal-code.js';
