import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const root = here('../../../../');

/** Where the pages are built. */
export const BUILT = here('../../../../.cache/bench-page');
export const BENCH_PAGE = 'tests/bench/hearing/browser/page.html';

/** Builds the bench's page as it would be shipped, and the app's where its loads are timed. */
export async function buildPages({ withApp }: { withApp: boolean }): Promise<void> {
  const configFile = here('../../../../vite.config.ts');
  const shared = { root, configFile, logLevel: 'silent' as const };
  if (withApp) await build({ ...shared, build: { outDir: BUILT, emptyOutDir: true } });
  await build({
    ...shared,
    ...(withApp && { publicDir: false as const }),
    build: {
      outDir: BUILT,
      emptyOutDir: !withApp,
      rolldownOptions: { input: here('page.html') },
    },
  });
}
