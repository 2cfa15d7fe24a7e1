import { fileURLToPath } from 'node:url';
import { build } from './building.mjs';
import { checkNode, installMissing } from './installing.mjs';
import { runCommand } from './trouble.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));

await runCommand(async () => {
  checkNode(process.versions.node);
  await installMissing(root);
  await build(root);
  console.log('Built: dist is a static folder for any HTTPS host, at the top or in a subfolder.');
});
