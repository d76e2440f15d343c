import { AllowSignedIn, type Caller, CurrentCaller } from '@ribband/access';
import { refusable, refuse } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { hasFigures } from './pump-entry.entity.js';
import type { PumpLog } from './pump-log.records.js';
import { type PumpDraft, PumpLogs } from './pump-log.service.js';
import { PumpEntryInput, PumpLogPayload, PumpLogType } from './pump-log.types.js';

const WritePumpEntryResult = refusable('WritePumpEntryResult', () => PumpLogPayload);

/** The pump log of watches afloat. */
@Resolver()
export class PumpLogResolver {
  constructor(@Inject(PumpLogs) private readonly logs: PumpLogs) {}

  @AllowSignedIn()
  @Query(() => PumpLogType, {
    nullable: true,
    description:
      'The pump log of a watch; without one, of the watch that goes on or of the last that began. Null before the first.',
  })
  async pumpLog(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, nullable: true, description: 'Which watch.' })
    turnoutId: string | null = null,
  ): Promise<PumpLogType | null> {
    const log = await this.logs.of(caller, turnoutId);
    return log && told(log);
  }

  @AllowSignedIn()
  @Mutation(() => WritePumpEntryResult, {
    description: 'Writes down a round at the pumps: for who is on that watch, and for who leads.',
  })
  async writePumpEntry(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'All of it.' }) input: PumpEntryInput,
  ): Promise<PumpLogPayload> {
    const { turnoutId, doneBy, key = null } = input;
    const { depthMillimetres = null, strokes = null, minutes = null } = input;
    const { remark = null, correctsId = null, reason = null } = input;
    const figures = { depthMillimetres, strokes, minutes };
    const draft = { turnoutId, read: readOf(input), ...figures, doneBy, remark, correctsId, reason };
    const pumpLog = told(await this.logs.write(caller, draft, key));
    return Object.assign(new PumpLogPayload(), { pumpLog });
  }
}

/** @throws RefusalError where it is said twice, or not at all */
function readOf({ read, readAt }: PumpEntryInput): PumpDraft['read'] {
  const [said, ...others] = [read ?? [], readAt ?? []].flat();
  if (said !== undefined && others.length === 0) return said;
  const words = said === undefined ? 'is not said' : 'is said twice';
  return refuse('BAD_INPUT', `When somebody looked ${words}.`, {
    field: 'input.read',
    remedy: 'Either a day and a time of it at the yard, or the instant.',
  });
}

const told = ({ lines, ...log }: PumpLog): PumpLogType => ({
  ...log,
  lines: lines.map((line) => ({ ...line, struck: !hasFigures(line.now) })),
});
