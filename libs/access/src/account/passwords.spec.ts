import { checkPassword, oneTimePassword, Passwords } from './passwords.js';

describe('passwords', () => {
  it('are kept as salted Argon2id hashes, which only the same password fits', async () => {
    const passwords = new Passwords();
    const [first, second] = await Promise.all([
      passwords.hash('oakum and pitch'),
      passwords.hash('oakum and pitch'),
    ]);
    expect(first).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    expect(first).not.toBe(second);
    expect(await passwords.isRight(first, 'oakum and pitch')).toBe(true);
    expect(await passwords.isRight(first, 'oakum and Pitch')).toBe(false);
  });

  it('take as long to be wrong for nobody as for somebody', async () => {
    const passwords = new Passwords();
    const stored = await passwords.hash('oakum and pitch');
    const time = async (hash: string | null): Promise<number> => {
      const from = performance.now();
      for (let i = 0; i < 5; i++) expect(await passwords.isRight(hash, 'wrong')).toBe(false);
      return performance.now() - from;
    };
    await time(null);
    const [nobody, somebody] = [await time(null), await time(stored)];
    // Both hash; without it the one would take a hundredth of the other.
    expect(nobody).toBeGreaterThan(somebody / 5);
  });

  it('made by the server cannot be guessed and can be read out', () => {
    const made = new Set(Array.from({ length: 200 }, oneTimePassword));
    expect(made.size).toBe(200);
    for (const one of made) expect(one).toMatch(/^[a-hjkmnp-z2-9]{5}-[a-hjkmnp-z2-9]{5}-[a-hjkmnp-z2-9]{5}$/);
  });

  it('of one’s own may be neither short nor made of what everybody knows', () => {
    const known = ['ada@yard.example', 'ada', 'Ada Quill'];
    const check = (password: string) => (): void => {
      checkPassword(password, known, 'new');
    };
    expect(check('oakum and pitch')).not.toThrow();
    for (const bad of [
      'short',
      'x'.repeat(201),
      'ADA@yard.example1',
      'my Ada Quill',
      'aaaaaaaaaaaaa',
      'abababababab',
    ]) {
      expect(check(bad)).toThrow(/password/i);
    }
  });
});
