import { type ArgumentsHost, Catch, type ExceptionFilter } from '@nestjs/common';
import { type RefusalCode, RefusalError } from '@ribband/platform';
import type { FastifyReply } from 'fastify';

const statuses: Partial<Record<RefusalCode, number>> = {
  NOT_SIGNED_IN: 401,
  NOT_PERMITTED: 403,
  NOT_FOUND: 404,
};

/** A refusal on a route: its sentence as plain text, which no browser takes for a page. */
@Catch(RefusalError)
export class RefusalFilter implements ExceptionFilter<RefusalError> {
  catch({ refusal }: RefusalError, host: ArgumentsHost): void {
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    void reply
      .code(statuses[refusal.code] ?? 400)
      .header('cache-control', 'no-store')
      .type('text/plain; charset=utf-8')
      .send(`${refusal.message}\n`);
  }
}
