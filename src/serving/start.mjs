import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildChanged } from './building.mjs';
import { checkNode, installMissing } from './installing.mjs';
import { servedHere, servedToPhones } from './messages.mjs';
import { START_HELP, readOptions } from './options.mjs';
import { serveFolder } from './serving.mjs';
import { runCommand } from './trouble.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));

await runCommand(async () => {
  const { help, phone, port } = readOptions(process.argv.slice(2));
  if (help) return console.log(START_HELP);
  checkNode(process.versions.node);
  await installMissing(root);
  await buildChanged(root);
  const folder = join(root, 'dist');
  if (!phone) return console.log(servedHere((await serveFolder(folder, { port })).port));

  // Loaded late: it needs a package that may just have been installed.
  const { certificateFor, networkAddresses } = await import('./certificate.mjs');
  const addresses = networkAddresses();
  const kept = join(root, 'node_modules/.cache/sayso/phone-certificate.json');
  const certificate = await certificateFor(kept, addresses);
  const served = await serveFolder(folder, { port, certificate });
  console.log(servedToPhones(served.port, addresses));
});
