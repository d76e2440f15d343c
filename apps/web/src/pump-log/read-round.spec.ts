import { figuresOf, momentOf } from './read-round.js';

const typing = (texts: Record<string, string>) => (name: string) => texts[name] ?? '';
const timeZone = 'America/Los_Angeles';

describe('a round as it was typed', () => {
  // The clocks go back on 7 November 2027 at 02:00: 15 U.S.C. 260a.
  const now = '2027-11-07T09:40:20.000Z';
  const when = (texts: Record<string, string>, entry: { readAt: string } | null = null) =>
    momentOf(typing(texts), { entry, now, timeZone });

  it('is at this instant where no time was typed, also in an hour that comes twice', () => {
    expect(when({})).toEqual({ readAt: now });
    expect(when({ on: '2027-11-07' })).toEqual({ readAt: now });
  });

  it('is at the time that was typed, today where no day was', () => {
    expect(when({ read: '01:20' })).toEqual({ read: { on: '2027-11-07', time: '01:20' } });
    expect(when({ on: '2027-11-06', read: '23:50' })).toEqual({ read: { on: '2027-11-06', time: '23:50' } });
  });

  it('stays where it was while something else is put right', () => {
    const entry = { readAt: '2027-11-07T08:30:00.000Z' };
    expect(when({ on: '2027-11-07', read: '01:30' }, entry)).toEqual(entry);
    expect(when({ on: '2027-11-07', read: '01:31' }, entry)).toEqual({
      read: { on: '2027-11-07', time: '01:31' },
    });
  });

  it('has what was counted, and nothing where nothing was typed', () => {
    expect(figuresOf(typing({ depthMillimetres: '4.5', strokes: '0' }), 'IMPERIAL')).toEqual({
      figures: { depthMillimetres: 114, strokes: 0, minutes: null },
    });
    expect(figuresOf(typing({ depthMillimetres: '4 1/2' }), 'IMPERIAL')).toMatchObject({
      figures: { depthMillimetres: 114 },
    });
  });

  it.each([
    ['strokes', '12.5'],
    ['strokes', '-1'],
    ['strokes', '3000000000'],
    ['minutes', '1441'],
    ['minutes', 'ten'],
    ['depthMillimetres', 'deep'],
    ['depthMillimetres', '-2'],
    ['depthMillimetres', '10001'],
  ])('is refused at its field before it is sent: %s of %s', (field, text) => {
    const read = figuresOf(typing({ [field]: text }), 'METRIC');
    expect(read).toMatchObject({ refusal: { field: `input.${field}` } });
    expect(JSON.stringify(read)).toContain(`“${text}”`);
  });
});
