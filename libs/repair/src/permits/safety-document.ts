import { idsByRef, known, leaves, permitKinds, refsById, tagKinds, insertAll } from '@ribband/crew';
import { newId } from '@ribband/platform';
import { type EntityManager, type EntityTarget, IsNull } from 'typeorm';
import { z } from 'zod';
import { hazardCodes } from '../hazards/hazard-catalogue.js';
import { Task } from '../tasks/task.entity.js';
import { Tool } from '../tools/tool.entity.js';
import { DayWeatherEntity } from './day-weather.entity.js';
import { Loudness } from './loudness.entity.js';
import { Permit } from './permit.entity.js';
import { SafetyTag } from './safety-tag.entity.js';
import { YardSafety } from './yard-safety.entity.js';

const { byAt, day, list, moment, ref, whole, words } = leaves;

const degrees = whole.min(-60).max(140).nullable();
const age = whole.min(0).max(99);

/** Permits, tags, weather and noise as they were written down, and what the organisation set for itself. */
export const safetyForm = z.strictObject({
  permits: list(
    z.strictObject({
      kind: z.enum(permitKinds),
      task: ref.nullable(),
      by: words,
      opensAt: moment,
      expiresAt: moment,
      oxygenPercent: z.number().min(0).max(100).nullable(),
      flammablePercent: z.number().min(0).max(100).nullable(),
      note: words.nullable(),
      closed: byAt,
    }),
  ),
  tags: list(
    z.strictObject({
      kind: z.enum(tagKinds),
      name: words,
      inspectedOn: day,
      inspectedBy: words,
      expiresOn: day,
      withdrawnBy: words.nullable(),
    }),
  ),
  weather: list(
    z.strictObject({
      on: day,
      highFahrenheit: degrees,
      lowFahrenheit: degrees,
      windMilesAnHour: whole.min(0).max(200).nullable(),
      airQualityIndex: whole.min(0).max(1000).nullable(),
      thunder: z.boolean(),
      holdReason: words.nullable(),
      holdHazards: list(z.enum(hazardCodes), 20),
      writtenBy: words,
    }),
  ),
  loudness: list(
    z.strictObject({ tool: ref.nullable(), dba: whole.min(40).max(140), measuredOn: day, by: words }),
    101,
  ),
  settings: z
    .strictObject({
      protectorsRating: whole.min(0).max(40).nullable(),
      ages: z
        .strictObject({
          visitorsBelow: age,
          inSightBelow: age,
          teardownFrom: age,
          byHazard: z.partialRecord(z.enum(hazardCodes), age),
        })
        .nullable(),
      agesReason: words.nullable(),
      agesBy: words.nullable(),
    })
    .nullable(),
});

export type SafetyDocument = z.infer<typeof safetyForm>;

export const noSafety: SafetyDocument = { permits: [], tags: [], weather: [], loudness: [], settings: null };

type Rows = <T extends object>(entity: EntityTarget<T>) => Promise<T[]>;

/** In the order of entry; a permit for a task that was dropped is gone with it. */
export async function readSafety(
  manager: EntityManager,
  organisationId: string,
  tasks: ReadonlyMap<string, string>,
): Promise<SafetyDocument> {
  const rows: Rows = (entity) =>
    manager.find(entity, { where: { organisationId }, order: { id: 'ASC' } } as never);
  const tools = await refsById(manager, Tool, organisationId);
  const settings = await manager.findOneBy(YardSafety, { organisationId });
  return {
    permits: (await rows(Permit))
      .filter(({ taskId }) => taskId === null || tasks.has(taskId))
      .map(({ kind, taskId, by, opensAt, expiresAt, closedAt, closedBy, ...row }) => ({
        kind,
        task: taskId === null ? null : known(tasks, taskId),
        by,
        opensAt: leaves.toMoment(opensAt),
        expiresAt: leaves.toMoment(expiresAt),
        oxygenPercent: row.oxygenPercent,
        flammablePercent: row.flammablePercent,
        note: row.note,
        closed: leaves.asByAt(closedAt, closedBy),
      })),
    tags: (await rows(SafetyTag)).map(bare),
    weather: (await rows(DayWeatherEntity)).map(({ heldOn, ...row }) => {
      const { holdHazards, ...rest } = bare(row);
      return { on: heldOn, ...rest, holdHazards: holdHazards as (typeof hazardCodes)[number][] };
    }),
    loudness: (await rows(Loudness)).map(({ toolId, dba, measuredOn, by }) => ({
      tool: toolId === null ? null : known(tools, toolId),
      dba,
      measuredOn,
      by,
    })),
    settings: settings && bare(settings as YardSafety & { ages: never }),
  };
}

function bare<T extends { id: string; organisationId: string }>({
  id: _id,
  organisationId: _organisation,
  ...row
}: T): Omit<T, 'id' | 'organisationId'> {
  return row;
}

/**
 * What a yard has written down of safety once a document was read in: the document's, or, where it is silent, what is
 * there. To be asked before the tasks and tools go: permits and noise go with them.
 */
export async function safetyToKeep(
  manager: EntityManager,
  organisationId: string,
  { safety }: { safety?: SafetyDocument | undefined },
): Promise<SafetyDocument> {
  if (safety) return safety;
  const live = await manager.findBy(Task, { organisationId, droppedAt: IsNull() });
  return readSafety(manager, organisationId, new Map(live.map(({ id, ref }) => [id, ref])));
}

/**
 * Puts what a document says in the place of what is there; one that is silent leaves it as it is. What was kept
 * through another document may name work or a tool that is there no more, and goes with it: a permit for one piece of
 * work never becomes one for all.
 */
export async function writeSafety(
  manager: EntityManager,
  organisationId: string,
  document: SafetyDocument | undefined,
): Promise<void> {
  if (!document) return;
  for (const entity of [Permit, SafetyTag, DayWeatherEntity, Loudness, YardSafety])
    await manager.delete(entity, { organisationId });
  const tasks = await idsByRef(manager, Task, organisationId);
  const tools = await idsByRef(manager, Tool, organisationId);
  const isThere = (ids: ReadonlyMap<string, string>, ref: string | null) => ref === null || ids.has(ref);
  const base = (kind: string) => ({ id: newId(kind), organisationId });
  await insertAll(
    manager,
    Permit,
    document.permits
      .filter(({ task }) => isThere(tasks, task))
      .map(({ task, opensAt, expiresAt, closed, ...row }) => ({
        ...base('permit'),
        ...row,
        taskId: task === null ? null : known(tasks, task),
        opensAt: leaves.fromMoment(opensAt),
        expiresAt: leaves.fromMoment(expiresAt),
        closedAt: closed && leaves.fromMoment(closed.at),
        closedBy: closed?.by ?? null,
      })),
  );
  await insertAll(
    manager,
    SafetyTag,
    document.tags.map((row) => ({ ...base('safetytag'), ...row })),
  );
  await insertAll(
    manager,
    DayWeatherEntity,
    document.weather.map(({ on, ...row }) => ({ ...base('weather'), heldOn: on, ...row })),
  );
  await insertAll(
    manager,
    Loudness,
    document.loudness
      .filter(({ tool }) => isThere(tools, tool))
      .map(({ tool, ...row }) => ({
        ...base('loudness'),
        ...row,
        toolId: tool === null ? null : known(tools, tool),
      })),
  );
  if (document.settings) await manager.insert(YardSafety, { ...base('safety'), ...document.settings });
}
