import { Controller, Get, Headers, Inject, Param, Res, UseFilters } from '@nestjs/common';
import { AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import { refuse } from '@ribband/platform';
import { Pictures } from '@ribband/repair';
import type { FastifyReply } from 'fastify';
import { RefusalFilter } from './refusal.filter.js';

/** Pictures of pieces, for people of the same yard. */
@UseFilters(RefusalFilter)
@Controller('pictures')
export class PicturesController {
  constructor(@Inject(Pictures) private readonly pictures: Pictures) {}

  @AllowSignedIn()
  @Get(':id')
  async picture(
    @CurrentCaller() caller: Caller,
    @Param('id') id: string,
    @Headers('if-none-match') known: string | undefined,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const picture =
      (await this.pictures.serve(caller, id)) ?? refuse('NOT_FOUND', 'There is no such picture.');
    const tag = `"${picture.hash}"`;
    // Asked for anew each time: one that was taken down is gone at once. Never run as a page, whatever it holds.
    void reply.headers({
      etag: tag,
      'cache-control': 'private, no-cache',
      'content-disposition': 'inline',
      'content-security-policy': "default-src 'none'; sandbox",
      'cross-origin-resource-policy': 'same-origin',
    });
    if (known === tag) await reply.code(304).send();
    else await reply.type(picture.type).send(picture.bytes);
  }
}
