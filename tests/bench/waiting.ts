import { fileURLToPath } from 'node:url';
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { rehearse } from '../../src/cli/rehearsing';
import { secondsOf } from '../../src/cli/durations';
import { loadBook } from '../../src/cues/fromFolder';
import { wordsOf } from '../../src/cues/grammarWords';
import { areaStates, nextStep } from '../../src/domain/deciding/deciding';
import { grammarOf } from '../../src/domain/hearing/building';
import { understand } from '../../src/domain/hearing/understanding';
import { DEFAULT_SETTINGS, type Entry } from '../../src/domain/log';
import { lexiconFor } from '../../src/ear/lexicon';
import { nodeRecogniser } from '../../src/ear/node';
import { resampled } from '../../src/ear/resampling';
import { createDexieLock } from '../../src/records/dexieLock';
import { createDexieRecords } from '../../src/records/dexieRecords';
import { createVault } from '../../src/records/vault';
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
  const finding = entries.find(({ type }) => type === 'finding');
  if (finding !== undefined) await benchStoring(finding);
}

const STORED = 200;

/**
 * How long an entry takes until it is stored, plain and sealed, in a database that is only in memory:
 * what the disk takes comes on top of both, and is the same.
 */
async function benchStoring(entry: Entry): Promise<void> {
  const vault = createVault();
  const database = { indexedDB: new IDBFactory(), IDBKeyRange };
  const records = createDexieRecords('sayso', database, vault);
  let number = 0;
  const store = () =>
    new Promise((done) =>
      records.append({ ...entry, id: `bench:bench:${String((number += 1))}` }, done),
    );
  const storeMany = async () => {
    for (let one = 0; one < STORED; one += 1) await store();
  };
  await measure(`${String(STORED)} entries stored`, storeMany);
  await createDexieLock('sayso', database, vault).turnOn('kettle under violet ladder');
  await measure(`${String(STORED)} entries sealed and stored`, storeMany);
}
