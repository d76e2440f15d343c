import { pumpTrends, type PumpRound } from './pump-trend.js';

const hour = 3_600_000;
const start = Date.parse('2027-10-16T20:00:00.000Z');
const at = (hours: number, rest: Partial<PumpRound>): PumpRound => ({
  ...{ readAt: start + hours * hour, depthMillimetres: null, strokes: null, minutes: null },
  ...rest,
});
const depthsOf = (...values: number[]) =>
  pumpTrends(values.map((depthMillimetres, hours) => at(hours, { depthMillimetres })));

describe('how the water goes', () => {
  it('says nothing of one figure', () => {
    expect(depthsOf(100)).toEqual([]);
    expect(pumpTrends([at(0, { strokes: 40 }), at(1, { strokes: 40 })])).toEqual([]);
  });

  it('rises since it was lowest, and by how much an hour', () => {
    expect(depthsOf(150, 120, 100, 120, 160)).toEqual([
      {
        ...{ measure: 'depth', goes: 'rising', since: start + 2 * hour, latestAt: start + 4 * hour },
        ...{ from: 100, latest: 160, perHour: 30 },
      },
    ]);
  });

  it('sees a rise that is in no single hour more than can be read', () => {
    expect(depthsOf(100, 104, 108, 112)).toMatchObject([{ goes: 'rising', since: start, from: 100 }]);
    expect(depthsOf(100, 102, 104, 106, 108)).toMatchObject([{ goes: 'rising', since: start, from: 100 }]);
  });

  it('goes on rising until it has been level for three rounds', () => {
    expect(depthsOf(100, 180, 180)).toMatchObject([{ goes: 'rising', since: start }]);
    expect(depthsOf(100, 180, 182, 180)).toMatchObject([{ goes: 'level', since: start + hour }]);
  });

  it('falls since it was highest, and is level where nobody could tell the difference', () => {
    expect(depthsOf(100, 180, 140, 120)).toMatchObject([
      { goes: 'falling', since: start + hour, from: 180, perHour: -30 },
    ]);
    expect(depthsOf(180, 100, 104, 98, 101)).toMatchObject([{ goes: 'level', since: start + hour }]);
  });

  it('takes pumping by the hour between two rounds, so that a late round is no rise', () => {
    const rounds = [
      ...[at(0, { strokes: 500 }), at(1, { strokes: 60 })],
      ...[at(3, { strokes: 120, minutes: 10 }), at(4, { strokes: 62, minutes: 5 })],
    ];
    const minutes = { measure: 'minutes', goes: 'level', from: 5, latest: 5 };
    expect(pumpTrends(rounds)).toMatchObject([
      { measure: 'strokes', goes: 'level', from: 60, latest: 62 },
      minutes,
    ]);
    expect(pumpTrends([...rounds, at(5, { strokes: 90 })])).toMatchObject([
      { measure: 'strokes', goes: 'rising', since: start + 3 * hour, from: 60, latest: 90 },
      minutes,
    ]);
  });

  it('takes it since the round before also where nobody counted at that one, so that no rise is hidden', () => {
    const rounds = [at(-1, { strokes: 60 }), at(0, { strokes: 60 }), at(1, { depthMillimetres: 90 })];
    expect(pumpTrends([...rounds, at(2, { strokes: 90 })])).toMatchObject([
      { measure: 'strokes', goes: 'rising', since: start, from: 60, latest: 90 },
    ]);
    // The bilge is sounded, and two minutes later the pumping of the same round is written down.
    const twice = [...rounds, at(1.03, { strokes: 60 }), at(2, { strokes: 60 })];
    expect(pumpTrends(twice)).toMatchObject([{ measure: 'strokes', goes: 'level', from: 60, latest: 60 }]);
  });

  it('adds up what is written within minutes of each other, at once', () => {
    const rounds = [at(0, { minutes: 0 }), at(1, { minutes: 10 }), at(2, { minutes: 10 })];
    expect(pumpTrends([...rounds, at(2.02, { minutes: 10 })])).toMatchObject([
      { measure: 'minutes', goes: 'rising', from: 10, latest: 20 },
    ]);
  });
});
