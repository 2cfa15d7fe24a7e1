import { beforeAll, describe, expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { wordsOf } from '../../src/cues/grammarWords';
import { grammarOf } from '../../src/domain/hearing/building';
import { understand } from '../../src/domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import { HALTS_FROM } from '../../src/ear/confidence';
import type { Detector } from '../../src/ear/detecting';
import { lexiconFor } from '../../src/ear/lexicon';
import { Listening } from '../../src/ear/listening';
import { nodeDetector, nodeQuick, nodeRecogniser } from '../../src/ear/node';
import type { Recogniser } from '../../src/ear/recognising';
import { URGENT } from '../../src/ear/urgent';
import { joined, SAYSO_VOICE, spoken } from './speech';

const book = bookOf();
const SURELY = { ...DEFAULT_SETTINGS, confidence: 1 };
const lexicon = lexiconFor(wordsOf(book));
let parts: { recogniser: Recogniser; quick: Recogniser; detector: Detector };
beforeAll(async () => {
  parts = {
    recogniser: await nodeRecogniser(),
    quick: await nodeQuick(),
    detector: await nodeDetector(),
  };
});

/** What would halt, of all that is told of a sound. */
async function haltsIn(sound: Float32Array): Promise<string[]> {
  const halts: string[] = [];
  parts.detector.reset();
  const listening = new Listening({
    ...parts,
    lexicon,
    urgent: new Set(URGENT),
    tell: (hearing) => {
      if (hearing.type === 'words' && hearing.confidence >= HALTS_FROM) halts.push(hearing.text);
    },
  });
  listening.attend(grammarOf(book, 'idle'));
  await listening.push(sound);
  return halts;
}

/** A slow voice: its "stop" begins 0.35 s before the vowel by which speech is noticed. */
describe('a slow "stop" after another reply', () => {
  it.each([
    ['knees forward', 1],
    ['knees forward', 2],
    ['next', 0.5],
    ['next', 1],
    ['next', 2],
  ])('halts: after "%s" and %d s', async (reply, seconds) => {
    const voice = SAYSO_VOICE;
    const sound = joined(
      await spoken(reply, { voice, before: 1, after: 0 }),
      await spoken('stop', { voice, before: seconds, after: 1.5 }),
    );
    expect(await haltsIn(sound)).toEqual([reply, 'stop']);
  });
});

describe('a "stop" in one breath with the reply before it', () => {
  it.each([
    ['knees forward', 0.15],
    ['knees forward', 0.5],
    ['limited', 0.3],
  ])('halts: "%s" and %d s later', async (reply, seconds) => {
    const voice = SAYSO_VOICE;
    const sound = joined(
      await spoken(reply, { voice, before: 1, after: 0 }),
      await spoken('stop', { voice, before: seconds, after: 1.5 }),
    );
    const halts = await haltsIn(sound);
    const meant = halts.map((text) => understand(book, 'idle', text, SURELY).reply?.command);
    expect(meant).toContain('stop');
  });
});
