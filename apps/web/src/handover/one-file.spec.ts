import { fileName, wholeFile } from './one-file.js';

test('the file is named after the vessel, in signs that every machine takes', () => {
  expect(fileName('Signe Holvang: what was done to her')).toBe('signe-holvang-what-was-done-to-her');
  expect(fileName('…')).toBe('handover');
});

test('the file stands by itself: a title, its own sheet, nothing fetched', () => {
  const file = wholeFile('Hatch & <bulwark>', '<article>Frame 12</article>');
  expect(file).toContain('<title>Hatch &amp; &lt;bulwark></title>');
  expect(file).toContain('<article>Frame 12</article>');
  expect(file).not.toMatch(/<(link|script)|src="http/);
});
