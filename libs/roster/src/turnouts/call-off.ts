import { refuse } from '@ribband/platform';
import { wordsOf } from '@ribband/repair';
import type { EntityManager } from 'typeorm';
import type { RosterMessages } from '../news/roster-messages.js';
import { TurnoutEntity } from './turnout.entity.js';

/** Whether a turnout went on at all: one that is called off while people are at it still has its work and its end. */
export const wasHeld = ({
  cancelledAt,
  startsAt,
}: Pick<TurnoutEntity, 'cancelledAt' | 'startsAt'>): boolean =>
  cancelledAt === null || cancelledAt > startsAt;

/** Calls a turnout off; whoever has a place there is told in the same transaction. */
export async function callOff(
  manager: EntityManager,
  messages: RosterMessages,
  turnout: TurnoutEntity,
  cancelReason: string,
  now: number,
): Promise<TurnoutEntity> {
  const version = turnout.version + 1;
  const left = await manager.save(TurnoutEntity, { ...turnout, cancelledAt: now, cancelReason, version });
  await messages.calledOff(manager, turnout.organisationId, left, now);
  return left;
}

/** @throws RefusalError where no reason is given */
export function saidWhy(reason: string): string {
  const text = reason.trim();
  if (text !== '') return wordsOf(text, 'reason', 500, 'Why it is called off');
  return refuse('BAD_INPUT', 'People will want to know why.', {
    field: 'reason',
    remedy: 'Say it in a few words.',
  });
}

/** Whatever is held at the yard is known by its day and its start. */
export function refuseSameStart({ kind, heldOn, startTime }: TurnoutEntity): never {
  const what = { watch: 'A watch', 'all-hands': 'An all-hands day' } as const;
  refuse('ALREADY_EXISTS', `${kind ? what[kind] : 'A turnout'} starts on ${heldOn} at ${startTime} too.`, {
    field: 'startTime',
    remedy: 'Let one of the two start a quarter of an hour earlier or later.',
  });
}
