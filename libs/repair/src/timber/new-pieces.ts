import {
  frameKey,
  type Hull,
  pieceOf,
  plankOf,
  type StockPattern,
  stockPatterns,
  taskRef,
} from '@ribband/hull';
import { Inject, Injectable } from '@nestjs/common';
import { createHash } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import type { HaulOut } from '../haul-out/haul-out.entity.js';
import { HullRecords } from '../hull/hull-records.service.js';
import { refusingAs } from '../hull/hull-refusals.js';
import { MethodsRecord } from '../methods/methods.entity.js';
import { Shapes } from '../shape/shapes.service.js';
import { sisterOf } from '../shape/sisters.js';
import { chosenScope } from '../survey/scope.js';
import { settledFindings } from '../survey/settled.js';
import { SurveyRecord } from '../survey/survey.entity.js';
import type { StockUse } from './flitch.entity.js';
import { settingsOf } from './settings.records.js';

/** A piece that is made new: which stock it wants, its rough shape if that is known, and the task that saws it. */
export interface Piece {
  key: string;
  name: string;
  use: StockUse;
  pattern: StockPattern | null;
  /** Ref of the task that first cuts the stock. */
  task: string;
}

export interface Wood {
  pieces: Piece[];
  shapeIsMeasured: boolean;
}

/** Steps of the methods that first cut stock. */
const cutsStock = { frames: 'lay-up', sisters: 'saw', planking: 'saw' } as const;

/** Scopes and patterns take a moment to compute: so many are kept ready. */
const mostKept = 10;

/** What has to be sawn new, from survey and scope. */
@Injectable()
export class NewPieces {
  /** By a digest of what they follow from: a version may be that of a change which was never committed. */
  private readonly known = new Map<string, Piece[]>();

  constructor(
    @Inject(HullRecords) private readonly hulls: HullRecords,
    @Inject(Shapes) private readonly shapes: Shapes,
  ) {}

  /** No pieces before she has an outline, a survey and methods. */
  async of(manager: EntityManager, haulOut: HaulOut): Promise<Wood> {
    const shape = await this.shapes.offsetsOf(manager, haulOut.id);
    const shapeIsMeasured = shape !== null;
    const record = await this.hulls.recordOf(manager, haulOut.id);
    const survey = await manager.findOneBy(SurveyRecord, { haulOutId: haulOut.id });
    const methods = await manager.findOneBy(MethodsRecord, { haulOutId: haulOut.id });
    if (!record || !survey || !methods) return { pieces: [], shapeIsMeasured };
    const { sawMarginMillimetres: margin } = await settingsOf(manager, haulOut);
    const offsets = shape?.offsets ?? null;
    const from = [record.outline, survey.survey, methods.methods, offsets, margin];
    const pieces = this.kept(digestOf(from), () => {
      const hull = this.hulls.build(record);
      const { drawn, sisters, planks } = newIn(hull, survey, methods);
      const patterns = stockPatterns(hull, { drawn, planks, offsets, margin });
      // A sister has the shape of the whole piece that it lies beside.
      const beside = stockPatterns(hull, {
        drawn: sisters.map((piece) => ({ piece })),
        planks: [],
        offsets,
        margin,
      });
      const { ownTasks } = methods.methods;
      const made = piecesOf(
        hull,
        drawn.map((one) => one.piece),
        planks,
        patterns,
      );
      return [...made, ...sistersOf(hull, sisters, beside)].map((piece) => ({
        ...piece,
        task: ownTasks[piece.task] ?? piece.task,
      }));
    });
    return { pieces, shapeIsMeasured };
  }

  private kept(key: string, make: () => Piece[]): Piece[] {
    const old = this.known.get(key);
    if (old) return old;
    const made = refusingAs(null, make);
    const [oldest] = this.known.keys();
    if (oldest !== undefined && this.known.size >= mostKept) this.known.delete(oldest);
    this.known.set(key, made);
    return made;
  }
}

const digestOf = (from: unknown): string => createHash('sha256').update(JSON.stringify(from)).digest('hex');

/** Frame pieces that are drawn, pieces that get a sister beside them, and planks that do not go back on. */
export function newIn(hull: Hull, { survey }: SurveyRecord, { methods }: MethodsRecord) {
  const { drawn } = chosenScope(hull, survey, methods.book);
  const last = new Map(
    survey.findings.flatMap((finding) =>
      'plank' in finding ? [[finding.plank, finding.condition] as const] : [],
    ),
  );
  const planks = [...last].filter(([, condition]) => condition === 'renew').map(([plank]) => plank);
  const frameOf = (piece: string): string => frameKey(pieceOf(hull, piece).frame, pieceOf(hull, piece).side);
  const renewed = new Set(drawn.map(({ piece }) => frameOf(piece)));
  const sisters = settledFindings(hull, survey)
    .filter(({ finding }) => finding.condition === 'sister')
    .map(({ element }) => element)
    .filter((piece) => !renewed.has(frameOf(piece)));
  return { drawn, sisters, planks };
}

function piecesOf(hull: Hull, drawn: string[], planks: string[], patterns: StockPattern[]): Piece[] {
  const pattern = (key: string): StockPattern | null => patterns.find((one) => one.key === key) ?? null;
  return [
    ...drawn.map((key) => {
      const { name, frame, side } = pieceOf(hull, key);
      const task = taskRef(frameKey(frame, side), cutsStock.frames);
      return { key, name, use: 'frames' as const, pattern: pattern(key), task };
    }),
    ...planks.map((key) => {
      const task = taskRef(key, cutsStock.planking);
      return { key, name: plankOf(hull, key).name, use: 'planking' as const, pattern: pattern(key), task };
    }),
  ];
}

function sistersOf(hull: Hull, sisters: string[], patterns: StockPattern[]): Piece[] {
  return sisters.map((piece) => {
    const { name: of, frame, side } = pieceOf(hull, piece);
    const [key, name] = [sisterOf(piece), `sister beside ${of}`];
    const own = patterns.find((one) => one.key === piece);
    return {
      ...{ key, name, use: 'frames' as const },
      pattern: own ? { ...own, key, name } : null,
      task: taskRef(frameKey(frame, side), cutsStock.sisters),
    };
  });
}
