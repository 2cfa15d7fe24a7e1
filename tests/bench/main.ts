/** `npm run bench`: how long people wait. `npm run bench hearing`: how well the ears hear. `npm run bench pacing`: how even beats are. */
import { benchHearing, USAGE } from './hearing/main';
import { benchPacing } from './pacing/main';
import { benchOwnVoice } from './ownVoice/main';
import { benchRendered } from './rendered/main';
import { benchStop } from './stop/main';
import { benchWaiting } from './waiting';

const [part, ...rest] = process.argv.slice(2);
if (part === 'hearing') await benchHearing(rest);
else if (part === 'pacing') await benchPacing(rest);
else if (part === 'rendered') await benchRendered(rest);
else if (part === 'own-voice') await benchOwnVoice(rest);
else if (part === 'stop') await benchStop(rest);
else if (part === undefined) {
  await benchWaiting();
  console.error(`More: ${USAGE}`);
} else {
  console.error(
    `There is no part "${part}". Known: hearing, pacing, rendered, own-voice, stop.\n${USAGE}`,
  );
  process.exitCode = 2;
}
