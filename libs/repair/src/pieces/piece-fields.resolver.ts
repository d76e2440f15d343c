import { CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { groupedBy, loader } from '@ribband/crew';
import { qrCode, QR_MOST_BYTES, tagCode } from '@ribband/hull';
import { Config, Database, refuse } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { In } from 'typeorm';
import type { StandIn } from '../methods/stand-ins.js';
import { boardLoader, saySosLoader, standInsLoader } from '../repair.loaders.js';
import { Task } from '../tasks/task.entity.js';
import { YardBoard } from '../tasks/yard-board.js';
import { wayUpInWords } from './piece-draft.js';
import { PieceNote } from './piece-note.entity.js';
import { nextOf, noteStory, tasksOfElement, workStory } from './piece-story.js';
import { StoryLineType } from './piece.types.js';
import { Piece } from './piece.entity.js';

/** What is shown of a piece besides its own columns. */
@Resolver(() => Piece)
export class PieceFieldsResolver {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardBoard) private readonly board: YardBoard,
    @Inject(Config) private readonly config: Config,
  ) {}

  @ResolveField(() => String, { description: 'The code on its tag, such as K7M-4TX.' })
  code(@Parent() piece: Piece): string {
    return tagCode(piece.tagNumber);
  }

  @ResolveField(() => String, {
    nullable: true,
    description: 'Key of the hull’s element that it is a part of.',
  })
  elementKey(@Parent() piece: Piece): string | null {
    return piece.elementKey;
  }

  @ResolveField(() => String, { nullable: true, description: 'Which way up it lay, in words.' })
  wayUp(@Parent() piece: Piece): string | null {
    return wayUpInWords(piece);
  }

  @ResolveField(() => [String], {
    description:
      'The QR code of its address as rows of 1 (dark) and 0, at most 41; leave four modules of white around it.',
  })
  qr(
    @Parent() piece: Piece,
    @Args('address', {
      type: () => String,
      description: 'Where the page stands, such as https://yard.example; PUBLIC_URL goes before it.',
    })
    address: string,
  ): string[] {
    const base = this.config.publicUrl ?? address.replace(/\/$/, '');
    const text = `${base}/pieces/${tagCode(piece.tagNumber)}`;
    if (!/^https?:\/\/[A-Za-z0-9.:[\]-]+$/.test(base) || text.length > QR_MOST_BYTES)
      refuse('BAD_INPUT', 'This is not the address of a server.', {
        field: 'address',
        remedy: 'Scheme and host such as https://yard.example, at most 90 characters.',
      });
    return qrCode(text).map((row) => row.map((dark) => (dark ? '1' : '0')).join(''));
  }

  @ResolveField(() => [StoryLineType], {
    description: 'What happened to it, oldest first; at most 200 lines.',
  })
  async story(
    @CurrentCaller() caller: Caller,
    @Parent() piece: Piece,
    @Context() context: RequestContext,
  ): Promise<StoryLineType[]> {
    const board = await boardLoader(context, this.database.read, this.board).load(piece.organisationId);
    const tasks = tasksOfElement(board, piece.elementKey, await this.standIns(piece, context));
    const saySos = await saySosLoader(context, this.database.read).loadMany(tasks.map((task) => task.id));
    const said = saySos.flatMap((rows) => (Array.isArray(rows) ? rows : []));
    const notes = await notesLoader(context, this.database).load(piece.id);
    return [...workStory(board, tasks, said), ...noteStory(notes, caller)]
      .sort((a, b) => a.at - b.at)
      .slice(-200);
  }

  @ResolveField(() => Task, {
    nullable: true,
    description: 'What is to be done next where it belongs; null when nothing is left.',
  })
  async nextTask(@Parent() piece: Piece, @Context() context: RequestContext): Promise<Task | null> {
    const board = await boardLoader(context, this.database.read, this.board).load(piece.organisationId);
    const standIns = await this.standIns(piece, context);
    return nextOf(board, tasksOfElement(board, piece.elementKey, standIns));
  }

  private standIns({ organisationId }: Piece, context: RequestContext): Promise<StandIn[]> {
    return standInsLoader(context, this.database.read).load(organisationId);
  }
}

const notesLoader = (context: RequestContext, database: Database) =>
  loader(context, 'repair.pieceNotes', async (ids: readonly string[]) => {
    const where = { pieceId: In([...ids]) };
    const rows = await database.read.find(PieceNote, { where, order: { id: 'ASC' } });
    return groupedBy(ids, rows, (row) => row.pieceId);
  });
