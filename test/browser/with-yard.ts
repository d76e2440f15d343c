import type { Browser } from 'playwright-core';
import { openChromium } from './chromium.js';
import { startYard, type Yard } from './yard.js';

/**
 * The demo yard and a browser for the tests of one file: there before the first, gone after the last.
 * @param begin told both once they are there; what else the tests need is made in it
 * @returns what is undone after the last test, the latest first; more may be added
 */
export function withYard(
  begin: (at: { yard: Yard; browser: Browser }) => Promise<void> | void,
): (() => Promise<void>)[] {
  const undo: (() => Promise<void>)[] = [];
  beforeAll(async () => {
    const yard = await startYard();
    undo.push(() => yard.stop());
    const browser = await openChromium();
    undo.push(() => browser.close());
    await begin({ yard, browser });
  });
  afterAll(async () => {
    for (const step of undo.reverse()) await step();
  });
  return undo;
}
