import { Controller, Get, HttpStatus, Inject, Res } from '@nestjs/common';
import { AllowAnyone } from '@ribband/access';
import { Health, type Readiness } from '@ribband/platform';
import type { FastifyReply } from 'fastify';

/** For whoever watches over the server. */
@Controller('health')
export class HealthController {
  constructor(@Inject(Health) private readonly health: Health) {}

  /** The process is up. */
  @AllowAnyone()
  @Get('live')
  live(): { live: true } {
    return { live: true };
  }

  /** It can serve: the database answers and has every migration, and so does the queue where there is one. */
  @AllowAnyone()
  @Get('ready')
  async ready(@Res({ passthrough: true }) reply: FastifyReply): Promise<Readiness> {
    const readiness = await this.health.readiness();
    void reply.code(readiness.ready ? HttpStatus.OK : HttpStatus.SERVICE_UNAVAILABLE);
    return readiness;
  }
}
