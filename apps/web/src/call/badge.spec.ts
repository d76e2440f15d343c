import { readBadge } from './badge.js';

describe('a badge that is read or keyed', () => {
  const people = [
    { name: 'Maud', code: 'K7M-4TX' },
    { name: 'Noor', code: 'P2Q-9RS' },
  ];
  it('is found whatever the hyphens and the case', () => {
    expect(readBadge('k7m4tx', people)).toEqual({ kind: 'right', person: people[0] });
  });
  it('is asked for when one character is wrong, and nobody’s when more are', () => {
    expect(readBadge('K7N-4TX', people)).toEqual({ kind: 'nearly', person: people[0] });
    expect(readBadge('K7N-4TY', people)).toEqual({ kind: 'nobody' });
    expect(readBadge('', people)).toEqual({ kind: 'nobody' });
  });
});
