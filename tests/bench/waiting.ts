import { fileURLToPath } from 'node:url';
import { rehearse } from '../../src/cli/rehearsing';
import { secondsOf } from '../../src/cli/durations';
import { loadBook } from '../../src/cues/fromFolder';
import { wordsOf } from '../../src/cues/grammarWords';
import { areaStates, nextStep } from '../../src/domain/deciding/deciding';
import { grammarOf } from '../../src/domain/hearing/building';
import { understand } from '../../src/domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import { lexiconFor } from '../../src/ear/lexicon';
import { nodeRecogniser } from '../../src/ear/node';
import { resampled } from '../../src/ear/resampling';
import { COACH_VOICE, fliteInNode } from '../../src/voice/node';

const RUNS = 20;
const PROMPT = 'check/hinge-unloaded';
const SAID = 'knees came forward';

async function measure(bench: string, work: () => unknown): Promise<void> {
  await work();
  const took: number[] = [];
  for (let run = 0; run < RUNS; run += 1) {
    const began = performance.now();
    await work();
    took.push(performance.now() - began);
  }
  took.sort((a, b) => a - b);
  const rounded = (milliseconds = 0) => Math.round(milliseconds * 100) / 100;
  console.log(
    JSON.stringify({
      bench,
      medianMilliseconds: rounded(took[RUNS / 2]),
      slowestMilliseconds: rounded(took.at(-1)),
    }),
  );
}

/**
 * How long the things take that a person waits for. One JSON object a line, with the median and
 * the slowest of twenty in milliseconds. Run it before and after a change, on the same machine
 * with nothing else going on; no number here is a promise.
 */
export async function benchWaiting(): Promise<void> {
  const folder = fileURLToPath(new URL('../../scripts-cues', import.meta.url));
  const book = loadBook(folder, 'en');
  const lexicon = lexiconFor(wordsOf(book));
  const grammar = grammarOf(book, PROMPT);
  const recogniser = await nodeRecogniser();
  const flite = await fliteInNode();
  const spoken = flite.synthesize(SAID, COACH_VOICE);
  const samples = resampled(spoken.samples, spoken.sampleRate);

  const session = () =>
    rehearse({
      book,
      routine: 'hinge',
      way: 'hands-on',
      settings: DEFAULT_SETTINGS,
      secondsOf,
      replies: {
        inTurn: ['knees forward', ...Array.from({ length: 40 }, () => 'clean set')].map(
          (text, index) => ({ line: index + 1, text, audio: null }),
        ),
        timed: [],
      },
      hearAudio: () => ({ heard: null, seconds: 0 }),
    });
  const { entries } = session();

  await measure('the cue scripts read', () => loadBook(folder, 'en'));
  await measure('the grammar of a check', () => grammarOf(book, PROMPT));
  await measure(`"${SAID}" understood`, () =>
    understand(book, PROMPT, SAID, { ...DEFAULT_SETTINGS, confidence: 1 }),
  );
  await measure(`"${SAID}" recognised from sound`, () =>
    recogniser.hear(samples, grammar, lexicon),
  );
  await measure(`"${SAID}" spoken`, () => flite.synthesize(SAID, COACH_VOICE));
  await measure(`the next step after ${entries.length} entries`, () => nextStep(book, entries));
  await measure(`the areas after ${entries.length} entries`, () => areaStates(book, entries));
  await measure('a whole hinge session rehearsed', session);
}
