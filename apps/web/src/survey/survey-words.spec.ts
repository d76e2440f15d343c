import { readPieces, sayCause, sayCondition, sayWhere } from './survey-words.js';
import type { FramesFinding } from './survey-document.js';

const finding: FramesFinding = {
  frames: [12, 19],
  side: 'starboard',
  pieces: [3, 4],
  condition: 'renew',
  cause: 'deck-edge',
  by: 'Odalys Brenn',
  on: '2026-10-17',
  note: null,
};

describe('the survey in words', () => {
  it('says where, as one says it at the yard', () => {
    expect(sayWhere(finding)).toBe('Frames 12 to 19 starboard, futtocks 3 and 4');
    expect(sayWhere({ ...finding, frames: [7, 7], pieces: [0] })).toBe('Frame 7 starboard, floor');
    expect(
      sayWhere({
        plank: 'strake-9-plank-2-starboard',
        condition: 'sound',
        cause: null,
        by: 'x',
        on: 'y',
        note: null,
      }),
    ).toBe('Strake 9 plank 2 starboard');
  });

  it('says that a repair is temporary while its cause is not mended', () => {
    const cause = { key: 'deck-edge', name: 'Deck edge', hasTask: false };
    expect(sayCause(finding, [cause])).toContain('temporary');
    expect(sayCause(finding, [{ ...cause, hasTask: true }])).not.toContain('temporary');
    expect(sayCause({ ...finding, cause: null }, [cause])).toBeNull();
  });

  it('says of a new joint where, why and who decided', () => {
    const cut = { at: 9.5, part: 'above', why: 'sound below', decidedBy: 'Odalys Brenn' } as const;
    expect(sayCondition({ ...finding, condition: 'new joint', ...cut })).toBe(
      'new joint here, at 9.5 strakes, the part above comes out: sound below (decided by Odalys Brenn)',
    );
  });

  it('reads pieces as they are typed, and nothing else', () => {
    expect(readPieces('3, 4')).toEqual([3, 4]);
    expect(readPieces('4 3-4 0')).toEqual([0, 3, 4]);
    for (const typed of ['', 'third', '4-3', '1-90']) expect(readPieces(typed)).toBeNull();
  });
});
