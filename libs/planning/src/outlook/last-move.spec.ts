import type { Reason } from './event-words.js';
import { type Before, lastMove, type Seen } from './last-move.js';

const seen = (gateOdds: number, evenOn: string | null): Seen => ({ gateOdds, error: 0.005, evenOn });
const before = (inOldOrder: Seen, reasons = ['the sawyer was away longer']): Before => ({
  ...seen(0.53, '2027-10-13'),
  reasons,
  inOldOrder,
});

describe('what the newest events did', () => {
  it('is said with both odds, the days and the reason', () => {
    const now = seen(0.08, '2027-11-03');
    expect(lastMove(before(now), now)).toBe(
      '1 in 10 instead of 5 in 10, and as likely as not 21 days later, since the sawyer was away longer.',
    );
    expect(lastMove(before(seen(0.5, '2027-10-16')), seen(0.5, '2027-10-16'))).toBe(
      'Still 5 in 10, a little worse, and as likely as not 3 days later, since the sawyer was away longer.',
    );
    const laterAsLikely = seen(0.545, '2027-10-16');
    expect(lastMove(before(laterAsLikely), laterAsLikely)).toBe(
      'Still 5 in 10, and as likely as not 3 days later, since the sawyer was away longer.',
    );
    expect(lastMove(before(seen(0.01, null)), seen(0.01, null))).toContain('not ready by the last turnout');
  });

  it('is nothing where the same order of work comes out the same; a luckier search is not the event’s doing', () => {
    const still = before(seen(0.52, '2027-10-13'), ['the plank stock was late']);
    expect(lastMove(still, seen(0.54, '2027-10-13'))).toBe('Hardly moved, though the plank stock was late.');
    expect(lastMove(still, seen(0.61, '2027-10-10'))).toBe(
      'Hardly moved, though the plank stock was late. The gain comes from a better order of the work.',
    );
  });

  it('does not call a trouble a gain where another order of the work made up for it', () => {
    expect(lastMove(before(seen(0.4, '2027-10-20')), seen(0.6, '2027-10-08'))).toBe(
      '4 in 10 in the old order of the work, since the sawyer was away longer; a better order makes it 6 in 10.',
    );
    expect(lastMove(before(seen(0.5, '2027-10-20')), seen(0.53, '2027-10-14'))).toBe(
      'Still 5 in 10, though the sawyer was away longer: a better order of the work makes up for it.',
    );
    expect(lastMove(before(seen(0.5, '2027-10-20')), seen(0.54, '2027-10-12'))).toBe(
      'Still 5 in 10, though the sawyer was away longer: a better order of the work makes up for it.',
    );
  });

  it('names no loss as the reason of a gain, and no gain as that of a loss', () => {
    const moved = (inOldOrder: Seen, way: Reason['way']): string | null =>
      lastMove({ ...before(inOldOrder), reasons: [{ words: 'nine nails were lost', way }] }, inOldOrder);
    const [better, worse] = [seen(0.83, '2027-10-03'), seen(0.22, '2027-11-03')];
    expect(moved(better, 'later')).toBe('8 in 10 instead of 5 in 10, and as likely as not 10 days earlier.');
    expect(moved(worse, 'sooner')).toBe('2 in 10 instead of 5 in 10, and as likely as not 21 days later.');
    expect(moved(worse, 'later')).toContain(', since nine nails were lost.');
    expect(moved(better, 'either')).toContain(', since nine nails were lost.');
  });

  it('is not said where nothing was recorded', () => {
    expect(lastMove(null, seen(0.5, null))).toBeNull();
    expect(lastMove(before(seen(0.1, null), []), seen(0.1, null))).toBeNull();
  });
});
