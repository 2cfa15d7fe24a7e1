import axe from 'axe-core';
import type { Page } from 'playwright-core';

/** Sizes of a page in CSS pixels: a phone at the rack, a tablet on a stand, a laptop. */
export const SIZES = [
  { name: 'phone', width: 390, height: 844 },
  { name: 'tablet', width: 820, height: 1180 },
  { name: 'laptop', width: 1366, height: 768 },
];
/** The laptop at 200 % zoom (WCAG 2.2, 1.4.4) and the narrowest of all (1.4.10: 320 pixels). */
export const ZOOMED = [
  { name: 'laptop at 200 %', width: 683, height: 384 },
  { name: '320 pixels', width: 320, height: 640 },
];

const LAID_OUT = ['phone', 'laptop'];

/** A target is at least so high and wide (WCAG 2.2, 2.5.5: 44 CSS pixels). */
const TARGET_PIXELS = 44;

/** What axe finds in the page as it stands now, contrast of 7:1 among it. */
async function faultsByAxe(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const here = (window as unknown as { axe: typeof axe }).axe;
    // Colours that are on their way are none to be measured.
    await Promise.all(document.getAnimations().map(({ finished }) => finished.catch(() => null)));
    const { violations } = await here.run(document, {
      rules: { 'color-contrast-enhanced': { enabled: true } },
    });
    return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
  });
}

/**
 * In the page: what reaches out of it or of its box; targets that are too small, or covered once
 * they are scrolled to (WCAG 2.2, 2.4.11).
 */
function faultsOfSize(targetPixels: number): string[] {
  const faults: string[] = [];
  const { scrollWidth, clientWidth } = document.documentElement;
  if (scrollWidth > clientWidth) faults.push(`sideways: ${scrollWidth} of ${clientWidth}`);
  const targets = document.querySelectorAll<HTMLElement>('button, summary, select, a[href], input');
  for (const target of targets) {
    // A box to tick, or a file to choose, is hit on its label too.
    const hit = target.closest('label') ?? target;
    const { width, height, right } = hit.getBoundingClientRect();
    const isSeen = width > 1 && height > 1 && hit.checkVisibility({ visibilityProperty: true });
    if (!isSeen) continue;
    const name = target.textContent.trim() || target.getAttribute('type') || target.tagName;
    if (height < targetPixels - 0.5 || width < targetPixels - 0.5)
      faults.push(`small: ${name}, ${Math.round(width)} by ${Math.round(height)}`);
    if (right > clientWidth + 0.5) faults.push(`outside: ${name}`);
    if (hit.scrollWidth > hit.clientWidth + 1) faults.push(`spills: ${hit.textContent.trim()}`);
    // Where the keyboard brings it into sight, nothing that stays in place lies over it.
    hit.scrollIntoView({ block: 'nearest' });
    const box = hit.getBoundingClientRect();
    const middle = box.left + box.width / 2;
    for (const y of [box.top + 2, box.bottom - 2]) {
      const over = document.elementFromPoint(middle, y);
      const isOfIt = over !== null && (hit.contains(over) || over.contains(hit));
      if (!isOfIt) faults.push(`covered: ${name}, by ${over?.textContent.trim() ?? 'the edge'}`);
    }
  }
  scrollTo(0, 0);
  return faults;
}

/**
 * What is wrong with the page at each of its sizes, named; empty where all is well. Axe looks at
 * those that are laid out in their own way. The page keeps the size it had before.
 */
export async function faultsAtAll(page: Page): Promise<string[]> {
  const before = page.viewportSize();
  const faults: string[] = [];
  for (const { name, ...size } of [...SIZES, ...ZOOMED]) {
    await page.setViewportSize(size);
    const found = [
      ...(LAID_OUT.includes(name) ? await faultsByAxe(page) : []),
      ...(await page.evaluate(faultsOfSize, TARGET_PIXELS)),
    ];
    faults.push(...found.map((fault) => `${name}: ${fault}`));
  }
  if (before !== null) await page.setViewportSize(before);
  return faults;
}
