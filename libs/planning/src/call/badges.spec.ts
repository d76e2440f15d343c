import { readTag } from '@ribband/hull';
import { newId } from '@ribband/platform';
import { badgeCodes } from './badges.js';

describe('the codes on badges', () => {
  const ids = Array.from({ length: 3_000 }, () => newId('volunteer'));

  it('are one for each, and say so when a character is wrong', () => {
    const codes = badgeCodes(ids);
    expect(new Set(codes.values()).size).toBe(ids.length);
    const [code = ''] = codes.values();
    const wrong = `${code.startsWith('A') ? 'B' : 'A'}${code.slice(1)}`;
    expect(readTag(wrong)).toMatchObject({ kind: 'mended', code });
  });

  it('stay with people whoever joins the crew after them', () => {
    const before = badgeCodes(ids.slice(0, 2_000));
    const after = badgeCodes(ids);
    expect([...before].every(([id, code]) => after.get(id) === code)).toBe(true);
  });
});
