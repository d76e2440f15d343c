import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { refuseTakenAway, whatIsGiven } from '@ribband/crew';
import { Connection, type ConnectionOf, Database, PageArgs, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { forgetRead } from '../repair.loaders.js';
import { FindPiece } from './find-piece.service.js';
import { Piece } from './piece.entity.js';
import { EditPieceInput, PieceFinding, PieceInput, PiecePayload, PiecesPayload } from './piece.types.js';
import { Pieces } from './pieces.service.js';

const PieceConnection = Connection('Piece', () => Piece);
const TagPieceResult = refusable('TagPieceResult', () => PiecePayload);
const TagWhatOpensResult = refusable('TagWhatOpensResult', () => PiecesPayload);
const EditPieceResult = refusable('EditPieceResult', () => PiecePayload);
const NotePieceResult = refusable('NotePieceResult', () => PiecePayload);

const payload = (piece: Piece): PiecePayload => Object.assign(new PiecePayload(), { piece });

@Resolver(() => Piece)
export class PiecesResolver {
  constructor(
    @Inject(Pieces) private readonly pieces_: Pieces,
    @Inject(FindPiece) private readonly find: FindPiece,
    @Inject(Database) private readonly database: Database,
  ) {}

  @AllowSignedIn()
  @Query(() => PieceConnection, { description: 'Pieces with tags, in the order in which they got them.' })
  pieces(@CurrentCaller() caller: Caller, @Args() page: PageArgs): Promise<ConnectionOf<Piece>> {
    return this.pieces_.list(caller, page);
  }

  @AllowSignedIn()
  @Query(() => Piece, { nullable: true, description: 'One piece; null when there is none.' })
  piece(
    @CurrentCaller() { organisationId }: Caller,
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
  ): Promise<Piece | null> {
    return this.database.read.findOneBy(Piece, { organisationId, id });
  }

  @AllowSignedIn()
  @Query(() => PieceFinding, {
    description: 'The piece that a code leads to, as it was scanned or keyed; one wrong sign is mended.',
  })
  pieceByCode(
    @CurrentCaller() caller: Caller,
    @Args('code', { type: () => String, description: 'The code on the tag.' }) code: string,
  ): Promise<PieceFinding> {
    return this.find.byCode(caller, code);
  }

  @AllowSignedIn()
  @Mutation(() => TagPieceResult, { description: 'Gives a piece a tag of its own.' })
  async tagPiece(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The piece.' }) input: PieceInput,
    @Context() context: RequestContext,
  ): Promise<PiecePayload> {
    forgetRead(context);
    return payload(
      await this.pieces_.tag(caller, {
        name: input.name,
        place: input.place,
        elementKey: input.elementKey ?? null,
        face: input.face ?? null,
        heading: input.heading ?? null,
        fate: input.fate ?? 'not said',
        keptAt: input.keptAt ?? null,
        cameOffOn: input.cameOffOn ?? null,
      }),
    );
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => TagWhatOpensResult, {
    description: 'Writes a tag for every element that some task opens and that has none yet.',
  })
  async tagWhatOpens(
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
  ): Promise<PiecesPayload> {
    forgetRead(context);
    const made = await this.pieces_.tagWhatOpens(caller);
    return Object.assign(new PiecesPayload(), { pieceIds: made.map((piece) => piece.id) });
  }

  @AllowSignedIn()
  @Mutation(() => EditPieceResult, {
    description: 'Changes what is written of a piece; its fate only the shipwright or the director.',
  })
  async editPiece(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
    @Args('version', { type: () => Int, description: 'The version that was read.' }) version: number,
    @Args('input', { description: 'What changes.' }) input: EditPieceInput,
    @Context() context: RequestContext,
  ): Promise<PiecePayload> {
    forgetRead(context);
    refuseTakenAway(input, 'name', 'place', 'fate');
    const { fate, name, place, ...rest } = whatIsGiven(input);
    const given = {
      ...rest,
      ...(name ? { name } : {}),
      ...(place ? { place } : {}),
      ...(fate ? { fate } : {}),
    };
    return payload(await this.pieces_.edit(caller, id, version, given));
  }

  @AllowSignedIn()
  @Mutation(() => NotePieceResult, { description: 'Adds a line to the story of a piece.' })
  async notePiece(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which piece.' }) id: string,
    @Args('words', { type: () => String, description: 'What is to be remembered.' }) words: string,
    @Context() context: RequestContext,
  ): Promise<PiecePayload> {
    forgetRead(context);
    return payload(await this.pieces_.remark(caller, id, words));
  }
}
