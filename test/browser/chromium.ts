import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import { partAt } from '../parts/parts.js';

const axeSource = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

export const phone = { width: 360, height: 740 };
export const desk = { width: 1280, height: 900 };

export function openChromium(): Promise<Browser> {
  return chromium.launch({
    executablePath: partAt('Chromium') ?? '',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-dev-shm-usage',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
    ],
  });
}

/** A page, and everything that went wrong in it: errors of its script, files that it could not get, other hosts asked. */
export interface Watched {
  context: BrowserContext;
  page: Page;
  faults: string[];
}

export async function openPage(
  browser: Browser,
  address: string,
  { viewport = desk, cookie }: { viewport?: { width: number; height: number }; cookie?: string } = {},
): Promise<Watched> {
  const context = await browser.newContext({ viewport, reducedMotion: 'reduce', baseURL: address });
  if (cookie) {
    const [name = '', value = ''] = cookie.split(/=(.*)/s);
    await context.addCookies([{ name, value, url: address }]);
  }
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') faults.push(message.text());
  });
  page.on('request', (request) => {
    const to = new URL(request.url());
    if (to.host !== new URL(address).host) faults.push(`asked ${to.host}`);
  });
  return { context, page, faults };
}

interface AxeResult {
  violations: { id: string; nodes: { html: string; failureSummary?: string }[] }[];
}

/** What axe finds wrong with the page as it stands: WCAG A and AA up to 2.2, and best practice. */
export async function axeViolations(page: Page): Promise<string[]> {
  // Evaluated over the debugger's line, so that the page's own content security policy stays in force.
  await page.evaluate(await readFile(axeSource, 'utf8'));
  const { violations } = await page.evaluate<AxeResult>(
    `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })`,
  );
  return violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html} ${node.failureSummary ?? ''}`),
  );
}

/** By how many pixels the page is wider than the window; more than 0 would have to be scrolled sideways. */
export function overflow(page: Page): Promise<number> {
  return page.evaluate<number>('document.documentElement.scrollWidth - window.innerWidth');
}
