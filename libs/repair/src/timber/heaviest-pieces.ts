import { buildHull, type Drawn, framePiecePounds, type Hull, plankPounds } from '@ribband/hull';
import { In, type EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { HullRecord } from '../hull/hull.entity.js';
import { MethodsRecord } from '../methods/methods.entity.js';
import { TaskOrigin } from '../methods/task-origin.entity.js';
import { SurveyRecord } from '../survey/survey.entity.js';
import { newIn } from './new-pieces.js';
import { settingsOf } from './settings.records.js';

/** A scope takes a moment to compute: the weights of so many are kept ready. */
const mostKept = 10;
const known = new Map<string, ReadonlyMap<string, number>>();

/**
 * Pounds of the heaviest piece that each task moves, by task: its plank, or of its frame the pieces that are drawn or
 * get a sister. Sizes as the hull is built, at the timber book's one density, green unless the shipwright says
 * otherwise. Not in it: tasks that no method made, those for the vessel as a whole, and frames before a survey.
 */
export async function heaviestPieces(
  manager: EntityManager,
  organisationId: string,
  taskIds: readonly string[],
): Promise<ReadonlyMap<string, number>> {
  const haulOut = await haulOutInForce(manager, organisationId);
  if (!haulOut || taskIds.length === 0) return new Map();
  const origins = await manager.findBy(TaskOrigin, { organisationId, taskId: In([...taskIds]) });
  if (origins.length === 0) return new Map();
  const { poundsACubicFoot } = await settingsOf(manager, haulOut);
  const pounds = await poundsOf(manager, haulOut.id, poundsACubicFoot);
  return new Map(
    origins.flatMap(({ taskId, element }) => {
      const own = pounds.get(element);
      return own === undefined ? [] : [[taskId, own] as const];
    }),
  );
}

/** By the hull's keys of planks and frames. */
async function poundsOf(
  manager: EntityManager,
  haulOutId: string,
  density: number,
): Promise<ReadonlyMap<string, number>> {
  // With the instant: a version may be that of a change which was never committed.
  const asked = { where: { haulOutId }, select: { id: true, version: true, changedAt: true } } as const;
  const versions = [
    await manager.findOne(HullRecord, asked),
    await manager.findOne(SurveyRecord, asked),
    await manager.findOne(MethodsRecord, asked),
  ];
  const key = [
    ...versions.map((one) => (one ? `${one.id} ${one.version} ${one.changedAt}` : '')),
    density,
  ].join(' ');
  const old = known.get(key);
  if (old) return old;
  const record = await manager.findOneBy(HullRecord, { haulOutId });
  if (!record) return new Map();
  const hull = buildHull(record.outline);
  const survey = await manager.findOneBy(SurveyRecord, { haulOutId });
  const methods = await manager.findOneBy(MethodsRecord, { haulOutId });
  const found = new Map([
    ...hull.planks.map((plank) => [plank.key, plankPounds(hull, plank, density)] as const),
    ...(survey && methods ? framesOf(hull, survey, methods, density) : []),
  ]);
  const [oldest] = known.keys();
  if (oldest !== undefined && known.size >= mostKept) known.delete(oldest);
  known.set(key, found);
  return found;
}

function framesOf(
  hull: Hull,
  survey: SurveyRecord,
  methods: MethodsRecord,
  density: number,
): (readonly [string, number])[] {
  const { drawn, sisters } = newIn(hull, survey, methods);
  const parts = new Map<string, Pick<Drawn, 'from' | 'to'>>([
    ...sisters.map((piece) => [piece, {}] as const),
    ...drawn.map((one) => [one.piece, one] as const),
  ]);
  return hull.frames.flatMap((frame) => {
    const pounds = frame.pieces.flatMap((piece) => {
      const part = parts.get(piece.key);
      return part === undefined ? [] : [framePiecePounds(hull, frame, piece, density, part)];
    });
    return pounds.length === 0 ? [] : [[frame.key, Math.max(...pounds)] as const];
  });
}
