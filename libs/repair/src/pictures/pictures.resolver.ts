import { AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { groupedBy, loader } from '@ribband/crew';
import { Database, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import {
  Args,
  Context,
  Field,
  ID,
  Mutation,
  ObjectType,
  Parent,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { In, IsNull } from 'typeorm';
import { Piece } from '../pieces/piece.entity.js';
import { forgetRead } from '../repair.loaders.js';
import { PictureEntity } from './picture.entity.js';
import { Picture } from './picture.types.js';
import { Pictures } from './pictures.service.js';

@ObjectType({ description: 'A picture was added or taken down.' })
export class PicturePayload {
  @Field(() => ID, { description: 'Id of the picture.' })
  pictureId!: string;

  @Field(() => ID, { description: 'Id of its piece.' })
  pieceId!: string;
}

const AddPictureResult = refusable('AddPictureResult', () => PicturePayload);
const RemovePictureResult = refusable('RemovePictureResult', () => PicturePayload);

const payload = ({ id, pieceId }: PictureEntity): PicturePayload =>
  Object.assign(new PicturePayload(), { pictureId: id, pieceId });

@Resolver(() => Piece)
export class PicturesResolver {
  constructor(
    @Inject(Pictures) private readonly pictures: Pictures,
    @Inject(Database) private readonly database: Database,
  ) {}

  @AllowSignedIn()
  @Mutation(() => AddPictureResult, {
    description: 'Adds a picture to a piece. Where, when and with what it was taken is left out of it.',
  })
  async addPicture(
    @CurrentCaller() caller: Caller,
    @Args('pieceId', { type: () => ID, description: 'Which piece it shows.' }) pieceId: string,
    @Args('base64', {
      type: () => String,
      description:
        'The bytes of a JPEG, PNG or WebP in base 64; at most 1,500,000 bytes and 2048 pixels a side.',
    })
    base64: string,
    @Args('caption', { type: () => String, nullable: true, description: 'What it shows.' })
    caption: string | null | undefined,
    @Context() context: RequestContext,
  ): Promise<PicturePayload> {
    forgetRead(context);
    return payload(await this.pictures.add(caller, pieceId, base64, caption ?? null));
  }

  @AllowSignedIn()
  @Mutation(() => RemovePictureResult, {
    description: 'Takes a picture down: staff any, volunteers their own. That it was there stays on record.',
  })
  async removePicture(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which picture.' }) id: string,
    @Args('reason', { type: () => String, description: 'Why.' }) reason: string,
    @Context() context: RequestContext,
  ): Promise<PicturePayload> {
    forgetRead(context);
    return payload(await this.pictures.remove(caller, id, reason));
  }

  @ResolveField(() => [Picture], {
    name: 'pictures',
    description: 'Its pictures, oldest first; at most 12.',
  })
  async ofPiece(
    @CurrentCaller() caller: Caller,
    @Parent() piece: Piece,
    @Context() context: RequestContext,
  ): Promise<Picture[]> {
    const rows = await picturesLoader(context, this.database).load(piece.id);
    return rows.map((row) => pictureShown(row, caller));
  }
}

const picturesLoader = (context: RequestContext, database: Database) =>
  loader(context, 'repair.pictures', async (ids: readonly string[]) => {
    const where = { pieceId: In([...ids]), removedAt: IsNull() };
    const rows = await database.read.find(PictureEntity, { where, order: { id: 'ASC' } });
    return groupedBy(ids, rows, (row) => row.pieceId);
  });

const pictureShown = (row: PictureEntity, caller: Caller): Picture => ({
  ...row,
  address: `/pictures/${row.id}`,
  mayRemove: caller.role !== 'volunteer' || row.addedByAccountId === caller.accountId,
});
