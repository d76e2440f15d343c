import { Audit, permit, type Caller } from '@ribband/access';
import { YardDay } from '@ribband/crew';
import {
  type ConnectionOf,
  Database,
  expectVersion,
  newId,
  type PageArgs,
  paginate,
  RealClock,
  refuse,
  YardClock,
} from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { TaskOpening } from '../tasks/task-opening.entity.js';
import { HullElement } from '../openings/hull-element.entity.js';
import { HoleBook } from '../trays/hole-book.service.js';
import { NewWood } from '../trays/new-wood.service.js';
import { wordsOf } from '../words.js';
import { changeInWords, mostWords, type PieceDraft, soundDraft } from './piece-draft.js';
import { PieceNote } from './piece-note.entity.js';
import { Piece } from './piece.entity.js';
import { pieceOf } from './piece.records.js';
import { partsOf } from './parts-of.js';
import { nextTagNumber } from './tag-number.js';

/** As many pieces as one yard can have. */
const mostPieces = 20_000;

/** Parts that come off, and their tags. */
@Injectable()
export class Pieces {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(HoleBook) private readonly holes: HoleBook,
    @Inject(NewWood) private readonly newWood: NewWood,
  ) {}

  list(caller: Caller, page: PageArgs): Promise<ConnectionOf<Piece>> {
    const query = this.database.read
      .createQueryBuilder(Piece, 'piece')
      .where('piece.organisationId = :organisationId', { organisationId: caller.organisationId });
    return paginate(query, page, ['id']);
  }

  /** Gives a piece its tag; anybody at the yard does that as it comes off. What becomes of it the shipwright says. */
  async tag(caller: Caller, draft: PieceDraft): Promise<Piece> {
    if (draft.fate !== 'not said') permit(caller, 'shipwright', 'director');
    return this.database.write(async (manager) => {
      const sound = soundDraft(draft, await this.yardDay.today(caller.organisationId, manager));
      const [piece] = await this.insert(manager, caller, [sound]);
      return piece as Piece;
    });
  }

  /** Tags for every element that some task opens and that has no piece yet: printed before the work begins. */
  async tagWhatOpens(caller: Caller): Promise<Piece[]> {
    permit(caller, 'shipwright', 'coordinator', 'director');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const openings = await manager.findBy(TaskOpening, { organisationId, does: 'opens' });
      const ids = [...new Set(openings.map((one) => one.elementId))];
      const elements = await manager.find(HullElement, {
        where: { organisationId, id: In(ids) },
        order: { id: 'ASC' },
      });
      const tagged = new Set(
        (await manager.findBy(Piece, { organisationId })).map((piece) => piece.elementKey),
      );
      const hull = await this.holes.hullOf(manager, organisationId);
      const drawn = await this.newWood.of(manager, organisationId);
      const drafts = elements
        .flatMap((element) => partsOf(element, hull, drawn))
        .filter((part) => !tagged.has(part.elementKey));
      return this.insert(manager, caller, drafts);
    });
  }

  /** @param changes fields that are absent stay as they are */
  async edit(caller: Caller, id: string, version: number, changes: Partial<PieceDraft>): Promise<Piece> {
    if (changes.fate !== undefined) permit(caller, 'shipwright', 'director');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const piece = await pieceOf(manager, organisationId, id, 'id');
      expectVersion(piece, version);
      const today = await this.yardDay.today(organisationId, manager);
      const { name, elementKey, place, face, heading, fate, keptAt, cameOffOn } = piece;
      const before = { name, elementKey, place, face, heading, fate, keptAt, cameOffOn };
      const after = soundDraft({ ...before, ...changes }, today);
      const words = changeInWords(before, after);
      if (words === null) return piece;
      await manager.update(Piece, { id }, { ...after, version: version + 1 });
      await this.note(manager, caller, id, words);
      await this.audit.note(manager, caller, 'editPiece', id, { fields: Object.keys(changes) });
      return Object.assign(piece, after, { version: version + 1 });
    });
  }

  /** A line in its story. */
  async remark(caller: Caller, id: string, words: string): Promise<Piece> {
    const said = wordsOf(words, 'words', mostWords.note, 'The remark');
    return this.database.write(async (manager) => {
      const piece = await pieceOf(manager, caller.organisationId, id, 'id');
      await this.note(manager, caller, id, said);
      await this.audit.note(manager, caller, 'notePiece', id);
      return piece;
    });
  }

  async note(manager: EntityManager, caller: Caller, pieceId: string, words: string): Promise<void> {
    const { organisationId, name } = caller;
    const yardAt = await this.yardClock.now(organisationId, manager);
    await manager.insert(PieceNote, {
      id: newId('piecenote'),
      organisationId,
      pieceId,
      words,
      enteredBy: name,
      yardAt,
    });
  }

  private async insert(manager: EntityManager, caller: Caller, drafts: PieceDraft[]): Promise<Piece[]> {
    const { organisationId } = caller;
    const there = await manager.find(Piece, { select: { tagNumber: true }, where: { organisationId } });
    if (there.length + drafts.length > mostPieces)
      refuse('BAD_INPUT', `A yard has at most ${mostPieces} pieces.`, {
        remedy: 'Tag assemblies as one piece.',
      });
    const taken = new Set(there.map((one) => one.tagNumber));
    const taggedAt = this.realClock.now();
    const pieces: Piece[] = [];
    for (const draft of drafts) {
      const tagNumber = nextTagNumber(taken.size, taken);
      taken.add(tagNumber);
      pieces.push({ id: newId('piece'), organisationId, tagNumber, version: 1, taggedAt, ...draft });
    }
    for (const piece of pieces) {
      await manager.insert(Piece, piece);
      await this.note(manager, caller, piece.id, 'Tag written.');
      await this.audit.note(manager, caller, 'tagPiece', piece.id);
    }
    return pieces;
  }
}
