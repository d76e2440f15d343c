import { AskedOf } from './asked-of.js';
import type { HandRecord } from './yard-records.js';

const hand = (id: string, over: Partial<HandRecord> = {}): HandRecord => ({
  id,
  name: id,
  bornOn: '1970-01-01',
  levels: new Map(),
  cards: [],
  showUpChance: 1,
  minutesAWeek: null,
  minutesATurnout: null,
  stays: [],
  consents: [],
  ...over,
});

describe('From which work the plan keeps people', () => {
  it('where nobody asks for anything there is nothing to ask', () => {
    expect(new AskedOf([hand('anselm'), hand('ysolde')], '2027-03-06').kinds).toEqual([]);
  });

  it('“no ladders” keeps from work with a fall in it, and from nothing else', () => {
    const asked = new AskedOf([hand('anselm', { ratherNots: ['ladders'] }), hand('ysolde')], '2027-03-06');
    expect(asked.ofTask({ hazards: ['fall', 'dust'] })).toEqual(['fall']);
    expect(asked.ofTask({ hazards: ['dust'] })).toEqual([]);
    expect([asked.isKeptFrom('anselm', 'fall'), asked.isKeptFrom('ysolde', 'fall')]).toEqual([true, false]);
  });

  it('somebody under 18 is kept from every kind of work that no parent has said yes to', () => {
    const consents = [{ kinds: ['light', 'eye'], givenOn: '2027-03-01', withdrawnOn: null }];
    const asked = new AskedOf([hand('noor', { bornOn: '2010-10-01', consents })], '2027-03-06');
    expect(asked.ofTask({ hazards: [] })).toEqual([]);
    expect(asked.ofTask({ hazards: ['eye', 'dust'] })).toEqual(['dust']);
    expect(new AskedOf([hand('noor', { bornOn: '2010-10-01' })], '2027-03-06').ofTask({})).toEqual(['light']);
  });
});
