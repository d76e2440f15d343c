import type { Fault } from '@ribband/crew';
import type { TaskDraft, TaskSurroundings } from './task-draft.js';

/** What can't stand in a task's seats; paths are `seats[0].skill`. */
export function seatFaults(
  { kind, seats, crew }: Pick<TaskDraft, 'kind' | 'seats' | 'crew'>,
  around: Pick<TaskSurroundings, 'skills' | 'cards'>,
): Fault[] {
  const faults: Fault[] = [];
  const add = (code: Fault['code'], path: string, message: string, wouldBeRight: string): void =>
    void faults.push({ code, path, message, wouldBeRight });
  seats.forEach((seat, at) => {
    const path = `seats[${at}]`;
    if (!around.skills.has(seat.skill))
      add('UNKNOWN_SKILL', `${path}.skill`, 'The yard knows no such skill', 'one of its skills');
    if (!Number.isInteger(seat.level) || seat.level < 1 || seat.level > 4)
      add(
        'BAD_INPUT',
        `${path}.level`,
        `A seat can’t ask for level ${seat.level}`,
        '1 learning, 2 works alone, 3 teaches, 4 may say so',
      );
    if (seat.count < 0)
      add('NEGATIVE_COUNT', `${path}.count`, `${seat.count} is below zero`, 'how many seats, 1 or more');
    else if (!Number.isInteger(seat.count) || seat.count < 1 || seat.count > 100)
      add('BAD_INPUT', `${path}.count`, `${seat.count} seats are none`, 'how many seats, 1 to 100');
    if (seat.cards.length > 20)
      add('BAD_INPUT', `${path}.cards`, `${seat.cards.length} cards are too many`, 'at most 20');
    seat.cards.forEach((card, cardAt) => {
      if (!around.cards.has(card))
        add(
          'NOT_FOUND',
          `${path}.cards[${cardAt}]`,
          'The yard knows no such card',
          'one of its kinds of cards',
        );
    });
  });
  const filled = seats.reduce((sum, seat) => sum + Math.max(0, seat.count), 0);
  // Who says that a hold is good has a seat on it and is no crew.
  if (kind !== 'hold' && filled > crew.max)
    add(
      'CREW_OUT_OF_ORDER',
      'seats',
      `${filled} seats don’t fit into a crew of at most ${crew.max}`,
      `at most ${crew.max} seats, or a larger crew`,
    );
  return faults;
}
