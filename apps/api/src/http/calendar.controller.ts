import { Controller, Get, Headers, Inject, Ip, Param, Res } from '@nestjs/common';
import { AllowAnyone } from '@ribband/access';
import { Feeds } from '@ribband/roster';
import type { FastifyReply } from 'fastify';
import { AskedTooOften } from './asked-too-often.js';

const tokenShape = /^([A-Za-z0-9_-]{43})\.ics$/;

/** Calendars for people's own programs: the address is the secret, no cookie is looked at. */
@Controller('calendar')
export class CalendarController {
  // A household of programs that each look every few minutes stays far below it.
  private readonly limit = new AskedTooOften(60, 60_000);

  constructor(@Inject(Feeds) private readonly feeds: Feeds) {}

  @AllowAnyone()
  @Get(':file')
  async calendar(
    @Param('file') file: string,
    @Ip() address: string,
    @Headers('if-none-match') known: string | undefined,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    void reply.headers({ 'cache-control': 'private, no-cache', 'x-robots-tag': 'noindex' });
    const wait = this.limit.count(address);
    if (wait > 0) {
      void reply.header('retry-after', String(Math.ceil(wait / 1000)));
      await reply.code(429).type('text/plain; charset=utf-8').send('Asked too often; wait a minute.\n');
      return;
    }
    const token = tokenShape.exec(file)?.[1];
    const calendar = token === undefined ? null : await this.feeds.serve(token);
    if (!calendar) {
      await reply.code(404).type('text/plain; charset=utf-8').send('There is no such calendar.\n');
      return;
    }
    const tag = `"${calendar.tag}"`;
    void reply.header('etag', tag);
    if (known === tag) await reply.code(304).send();
    else
      await reply
        .header('content-disposition', 'inline; filename="turnouts.ics"')
        .type('text/calendar; charset=utf-8')
        .send(calendar.text);
  }
}
