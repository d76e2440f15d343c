import { seatsToPost } from '../seats.js';
import { facts, person, sawn, seat, toldOf } from './few-people.fixture.js';
import { makeRoster } from './make-roster.js';
import { WhyHeld } from './why-held.js';

describe('why somebody has a seat', () => {
  const told = toldOf(person('Pell', { levels: [2] }), person('Quill', { levels: [3] }));
  const seats = [seat(sawn, { planned: 0, to: 120 })];
  const roster = makeRoster(told, seats, facts(), new Map());
  const why = new WhyHeld(told, roster, facts());
  const held = roster.held.map((one) => ({ ...one, why: why.of(one, roster.held) }));

  it('says what for, and to those who put the week together who else could be and why they are not', () => {
    expect(held[0]?.why).toEqual({
      there: 'For sawing, works alone: one of 2 who can that day.',
      instead: ' Next would be Quill, but can do more than is asked here.',
    });
  });

  it('is posted without a word on anybody who is not there', () => {
    const none = { seconds: [], swing: new Map(), odds: new Map(), unfilled: [], off: new Map() };
    const [posted] = seatsToPost(told, { held, ...none });
    expect(posted.why).toBe('For sawing, works alone: one of 2 who can that day.');
  });
});
