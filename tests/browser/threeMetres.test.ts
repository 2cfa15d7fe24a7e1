import type { Page } from 'playwright-core';
import { afterEach, expect, it } from 'vitest';
import { SIGNS } from '../../src/screens/run/ToneSign';
import { begin, open, type Opened } from './opening';
import { speakAtOnce } from './quickVoice';
import { SIZES } from './standing';

/**
 * How many CSS pixels a millimetre has on what these sizes stand for: a phone of 460 pixels an inch
 * at a ratio of 3, a tablet of 264 at 2, and a 14 inch laptop of 1366 by 768.
 */
const PIXELS_PER_MILLIMETRE: Record<string, number> = {
  phone: 460 / 3 / 25.4,
  tablet: 264 / 2 / 25.4,
  laptop: Math.hypot(1366, 768) / 14 / 25.4,
};
const METRES = 3;
/**
 * The least height of a capital letter, in minutes of arc. Five is the letter that an eye of normal
 * acuity (6/6, 20/20) still reads: ISO 8596, where the ring is five times its gap of one minute.
 * What stands out must be read at a glance, so it has twice that; a phone has room for half as much
 * again, an eye of 6/9. Height is that of a capital letter, as ISO 9241-303 has it.
 */
const JUST_READ = 5;
const AT_A_GLANCE: Record<string, number> = { phone: 7.5, tablet: 10, laptop: 10 };

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

interface Seen {
  what: string;
  /** Height of a capital letter. */
  pixels: number;
  isWhole: boolean;
}

/** In the page: what is to be read from afar, how large, and whether all of it is on the screen. */
function lettersNow(): Seen[] {
  const context = document.createElement('canvas').getContext('2d');
  const foot = document.querySelector('.run .stop')?.getBoundingClientRect();
  const all = (parts: string) => [...document.querySelectorAll<HTMLElement>(parts)];
  const wordOf = (part: HTMLElement) => part.textContent.trim().toLowerCase();
  const seen = (what: string, part: HTMLElement): Seen => {
    const { fontStyle, fontWeight, fontSize, fontFamily } = getComputedStyle(part);
    if (context !== null) context.font = `${fontStyle} ${fontWeight} ${fontSize} ${fontFamily}`;
    const { top, right, bottom, left } = part.getBoundingClientRect();
    const isUnderStop =
      foot !== undefined && bottom > foot.top + 1 && right > foot.left && left < foot.right;
    return {
      what: `${what} ${wordOf(part)}`,
      pixels: context?.measureText('H').actualBoundingBoxAscent ?? 0,
      isWhole: top >= 0 && bottom <= innerHeight && right <= innerWidth && !isUnderStop,
    };
  };
  const twinOf = (word: HTMLElement) =>
    all('.run .results button').find((button) => wordOf(button) === wordOf(word));
  return [
    ...all('.stage h1').map((part) => seen('now', part)),
    ...all('.stage .side').map((part) => seen('side', part)),
    ...all('.stage .tone-sign:has(.shape)').map((part) => seen('sign', part)),
    ...all('.stage .number > :first-child').map((part) => seen('count', part)),
    // What a button says in large letters is not said twice; nor is the side that stands above.
    ...all('.sayable li')
      .map((word) => (word.checkVisibility() ? word : twinOf(word)))
      .flatMap((part) => (part === undefined ? [] : [seen('say', part)])),
  ];
}

/** In the page: a sign with these words in the place of the one that is there; null restores that. */
function signNow(words: string | null): void {
  document.querySelector('.tone-sign.of-test')?.remove();
  const own = document.querySelector<HTMLElement>('.tone-sign');
  if (own === null) return;
  own.hidden = words !== null;
  if (words === null) return;
  const sign = document.createElement('p');
  sign.className = 'tone-sign of-test';
  sign.innerHTML = `<svg class="shape" viewBox="0 0 24 24"></svg> ${words}`;
  own.after(sign);
}

/** Minutes of arc at three metres. */
const arcMinutes = (millimetres: number): number =>
  (2 * Math.atan(millimetres / 2 / (METRES * 1000)) * 180 * 60) / Math.PI;

/** What is too small or not wholly on the screen, at each size. */
async function faultsFromAfar(page: Page): Promise<{ faults: string[]; seen: string }> {
  const faults: string[] = [];
  let seen = '';
  for (const { name, ...size } of SIZES) {
    await page.setViewportSize(size);
    await page.evaluate(() => scrollTo(0, 0));
    for (const { what, pixels, isWhole } of await page.evaluate(lettersNow)) {
      const minutes = arcMinutes(pixels / (PIXELS_PER_MILLIMETRE[name] ?? Infinity));
      const least = /^(say|sign) /.test(what) ? JUST_READ : (AT_A_GLANCE[name] ?? Infinity);
      seen += `${what}\n`;
      if (minutes < least) faults.push(`${name}: ${what}: ${minutes.toFixed(1)} of ${least}`);
      if (!isWhole) faults.push(`${name}: ${what}: not wholly on the screen`);
    }
  }
  return { faults, seen };
}

it('from three metres the one thing now, side, count and what can be said are read; a thumb reaches the answers', async () => {
  opened = await open({ permission: 'denied', before: speakAtOnce });
  const { page } = opened;
  await begin(page, 'touch', 'overhead');
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  expect((await faultsFromAfar(page)).faults).toEqual([]);
  await page.locator('main.run .number').waitFor({ timeout: 90_000 });
  const work = await faultsFromAfar(page);
  expect(work.faults).toEqual([]);
  expect(work.seen).toMatch(/^count \d/m);
  expect(work.seen).toMatch(/say pause/);

  await page.setViewportSize({ width: 390, height: 844 });
  await page.getByRole('button', { name: 'Done' }).click();
  const held = page.getByRole('button', { name: 'Held', exact: true });
  await held.waitFor({ timeout: 30_000 });
  let question = await faultsFromAfar(page);
  // While it is asked again, other words count; in the end it waits.
  while (!/(say held[^]*){3}/.test(question.seen)) {
    await page.locator('.sayable li', { hasText: 'held' }).waitFor({ state: 'attached' });
    question = await faultsFromAfar(page);
  }
  expect(question.faults).toEqual([]);
  expect(question.seen).toMatch(/side (left|right)/);

  // A sign takes the place of what is going on: all else stays on the screen, where it was.
  const answer = () => page.getByRole('button', { name: 'Held', exact: true }).boundingBox();
  await page.setViewportSize({ width: 390, height: 844 });
  const before = await answer();
  for (const { words } of Object.values(SIGNS)) {
    await page.evaluate(signNow, words);
    await page.setViewportSize({ width: 390, height: 844 });
    expect((await answer())?.y, words).toBeCloseTo(before?.y ?? 0, 0);
    const signed = await faultsFromAfar(page);
    expect(signed.faults).toEqual([]);
    expect(signed.seen).toContain(`sign ${words.toLowerCase()}`);
  }
  await page.evaluate(signNow, null);

  // The upper third of a phone in one hand is out of its thumb's reach.
  await page.setViewportSize({ width: 390, height: 844 });
  for (const name of ['Held', 'Lost…', 'Short', 'Pain', 'Stop']) {
    const box = await page.getByRole('button', { name, exact: true }).boundingBox();
    expect(box?.y, name).toBeGreaterThanOrEqual(844 / 3);
    expect((box?.y ?? 0) + (box?.height ?? 0), name).toBeLessThanOrEqual(844);
    await page.getByRole('button', { name, exact: true }).click({ trial: true });
  }
});
