// npx tsx tests/browser/drawIcons.ts: draws public/icon-*.png anew from public/icon.svg.
import { readFileSync } from 'node:fs';
import { startChromium } from './starting';

const svg = readFileSync('public/icon.svg', 'utf8');
/** Where a device cuts its own shape out, the ground reaches the edges. */
const wholeGround = svg.replace(' rx="16"', '');

const started = await startChromium([]);
const [page] = started.context.pages();
if (page === undefined) throw new Error('Chromium has opened no page.');
for (const { size, name, drawing } of [
  { size: 180, name: 'icon-180', drawing: wholeGround },
  { size: 192, name: 'icon-192', drawing: svg },
  { size: 512, name: 'icon-512', drawing: svg },
  { size: 512, name: 'icon-maskable-512', drawing: wholeGround },
]) {
  await page.setViewportSize({ width: size, height: size });
  await page.setContent(
    `<style>body{margin:0}svg{display:block;width:${size}px;height:${size}px}</style>${drawing}`,
  );
  await page.screenshot({ path: `public/${name}.png`, omitBackground: true });
}
await started.close();
