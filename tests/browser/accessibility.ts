// What a page is held to wherever it is seen: accessibility by day and night, and one direction to scroll in.

import axe from 'axe-core';
import type { Page } from 'playwright-core';

type Axe = typeof axe;

/** The rules whose findings depend on colours; all others see the same by day and by night. */
const ofColour = ['color-contrast', 'color-contrast-enhanced', 'link-in-text-block'];

/**
 * The faults of accessibility of a page with all folds open, a line each: WCAG 2.2 levels A and AA and 1.4.6 Contrast
 * (Enhanced) of level AAA, by axe-core, in light colours; what depends on colours also in dark ones. Safety panels keep the
 * colours of their standard, whose contrast `signalFaults` measures.
 */
export async function accessFaults(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  await page.evaluate(() => {
    for (const fold of document.querySelectorAll('details')) fold.open = true;
  });
  const find = (only: readonly string[] | undefined): Promise<readonly string[]> =>
    page.evaluate(
      async (rules) => {
        const { axe: run } = window as unknown as { axe: Axe };
        const found = await run.run(
          { exclude: ['.signal'] },
          rules === undefined
            ? {
                resultTypes: ['violations'],
                runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
                rules: { 'color-contrast-enhanced': { enabled: true } },
              }
            : { runOnly: { type: 'rule', values: rules } },
        );
        // a rule that was not run would find nothing
        if (!found.passes.some(({ id }) => id === 'color-contrast-enhanced')) return ['contrast was not measured'];
        return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html} ${nodes[0]?.failureSummary}`);
      },
      only as string[] | undefined,
    );
  await page.emulateMedia({ colorScheme: 'light' });
  const light = await find(undefined);
  await page.emulateMedia({ colorScheme: 'dark' });
  const dark = await find(ofColour);
  await page.emulateMedia({ colorScheme: null });
  return [...light.map((fault) => `light, ${fault}`), ...dark.map((fault) => `dark, ${fault}`)];
}

/** The faults of contrast of the words of safety panels, by the measure for large and bold text. */
export async function signalFaults(page: Page): Promise<number> {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { axe: run } = window as unknown as { axe: Axe };
    const found = await run.run({ include: ['.signal'] }, { runOnly: ['color-contrast'] });
    return found.violations.length;
  });
}

/** How wide a page is, in px, on a phone of 320 px: as it stands, and with text at 200 %. WCAG 2.2, 1.4.10 and 1.4.4. */
export async function widthsAt320(page: Page): Promise<readonly [number, number]> {
  const before = page.viewportSize();
  await page.setViewportSize({ width: 320, height: 640 });
  const width = (): Promise<number> => page.evaluate(() => document.documentElement.scrollWidth);
  const plain = await width();
  await page.evaluate(() => document.documentElement.style.setProperty('font-size', '212.5%'));
  const large = await width();
  await page.evaluate(() => document.documentElement.style.removeProperty('font-size'));
  if (before !== null) await page.setViewportSize(before);
  return [plain, large];
}
