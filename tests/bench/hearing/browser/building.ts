import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const root = here('../../../../');

/** Where the app's page and the bench's page are built. */
export const BUILT = here('../../../../.cache/bench-page');
export const BENCH_PAGE = 'tests/bench/hearing/browser/page.html';

/** Builds both pages as they would be shipped. */
export async function buildPages(): Promise<void> {
  const configFile = here('../../../../vite.config.ts');
  const shared = { root, configFile, logLevel: 'silent' as const };
  await build({ ...shared, build: { outDir: BUILT, emptyOutDir: true } });
  await build({
    ...shared,
    publicDir: false,
    build: {
      outDir: BUILT,
      emptyOutDir: false,
      rolldownOptions: { input: here('page.html') },
    },
  });
}
