import { inWalkingOrder } from './walking-order.js';

describe('the walk round her', () => {
  it('goes down the starboard side, up the port side, then inboard, then ashore', () => {
    const met = [
      null,
      'port, frame 12',
      'Deck',
      'starboard, frame 14',
      'port, frame 19',
      'starboard, frame 9',
      'starboard, strake 9',
    ].map((position) => ({ position }));
    expect(inWalkingOrder(met).map((one) => one.position)).toEqual([
      'starboard, strake 9',
      'starboard, frame 9',
      'starboard, frame 14',
      'port, frame 19',
      'port, frame 12',
      'Deck',
      null,
    ]);
  });
});
