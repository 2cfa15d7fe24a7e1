/** One of the processes that hear: takes jobs from its parent one by one and sends the answers. */
import { loadBook } from '../../../src/cues/fromFolder';
import { fileURLToPath } from 'node:url';
import { Hearers } from './hearing';
import type { BenchEar } from './hearingEar';
import type { EarName, Job } from './jobs';
import { moonshineFor } from './moonshine';
import { oursFor } from './ours';
import { pocketSphinxFor } from './pocketSphinx';
import { SoundRoom, type Crowd } from './sounding';

export type ToWorker = { crowd: Crowd; ears: EarName[] } | { index: number; job: Job };

const book = loadBook(fileURLToPath(new URL('../../../scripts-cues', import.meta.url)), 'en');
let hearers: Hearers | undefined;

async function begin(crowd: Crowd, names: EarName[]): Promise<void> {
  const found: BenchEar[] = [await oursFor(book)];
  if (names.includes('ours, log-mel alone')) found.push(await oursFor(book, { size: 'small' }));
  if (names.includes('pocketsphinx')) found.push(await pocketSphinxFor(book));
  if (names.some((name) => name.endsWith('decoder'))) found.push(...(await moonshineFor(book)));
  hearers = new Hearers({
    book,
    ears: new Map(found.map((ear) => [ear.name, ear])),
    sounds: new SoundRoom(crowd),
    forgetful: () => oursFor(book, { remembers: false }),
  });
}

const say = (message: object) => process.send?.(message);
process.on('message', (message: ToWorker) => {
  const work =
    'crowd' in message
      ? begin(message.crowd, message.ears).then(() => say({ ready: true }))
      : Promise.resolve(hearers?.hear(message.job)).then((answers) =>
          say({ index: message.index, answers }),
        );
  work.catch((problem: unknown) => {
    say({
      problem: problem instanceof Error ? (problem.stack ?? problem.message) : String(problem),
    });
    process.exitCode = 1;
    process.disconnect();
  });
});
