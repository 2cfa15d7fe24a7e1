import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { begin, DIST, h1, open, toLastQuestion, untilStored, type Opened } from './opening';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

it('people, a session, its record saved and a group led: no request leaves the place that served the page', async () => {
  opened = await open({ permission: 'denied' });
  // Each page that is opened complains of what leaves (opening.ts).
  const { page, complaints } = opened;
  await page.reload();
  await h1(page, 'Sayso');
  await page.getByRole('button', { name: 'Show an invented club' }).click();
  await page.getByText('12 athletes', { exact: true }).waitFor();
  await begin(page, 'touch');
  await toLastQuestion(page);
  await page.getByRole('button', { name: 'Held', exact: true }).click();
  await untilStored(page, (log) => log.some(({ type }) => type === 'finding'), 20);
  await page.getByRole('button', { name: 'Back to the start' }).click();
  await page.getByRole('button', { name: /^The record/ }).click();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save it in a file' }).click();
  const file = await (await download).path();
  expect(readFileSync(file, 'utf8')).toContain('finding');
  await page.getByText(/^Saved as sayso-record-/).waitFor();
  // The same file brings nothing new, and says so.
  await page.locator('input[type=file]').setInputFiles(file);
  await page.getByText(/is here already/).waitFor();
  await page.getByRole('button', { name: 'Athletes' }).click();
  await page.getByRole('button', { name: 'Warm up a group' }).click();
  await page.getByRole('button', { name: /begin by touch/ }).click();
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Yes, end it' }).click();
  await h1(page, 'The warm-up is over');
  expect(complaints).toEqual([]);
}, 120_000);

it('a script that came into the page does not run, and can send nothing', async () => {
  opened = await open({ permission: 'denied' });
  const { page, complaints } = opened;
  // The built page says so itself: a host of static files may send no headers.
  expect(readFileSync(join(DIST, 'index.html'), 'utf8')).toContain('Content-Security-Policy');
  const ran = await page.evaluate(async () => {
    const script = document.createElement('script');
    script.textContent = 'window.came = true;';
    document.body.append(script);
    const image = document.createElement('img');
    image.setAttribute('onerror', 'window.came = true;');
    image.src = 'missing.png';
    document.body.append(image);
    await new Promise((done) => image.addEventListener('error', done));
    const sent = await fetch('https://example.invalid/').then(
      () => 'sent',
      () => 'refused',
    );
    return { came: 'came' in window, sent };
  });
  expect(ran).toEqual({ came: false, sent: 'refused' });
  const refused = await page.evaluate(
    () =>
      new Promise<string>((told) => {
        document.addEventListener('securitypolicyviolation', ({ violatedDirective }) =>
          told(violatedDirective),
        );
        void fetch('https://example.invalid/').catch(() => undefined);
      }),
  );
  expect(refused).toBe('connect-src');
  // A page that leads elsewhere is told, wherever a test opens one.
  const elsewhere = page.url().replace('localhost', '127.0.0.1');
  await page.goto(elsewhere).catch(() => undefined);
  expect(complaints).toContain(`It asked ${elsewhere}`);
});
