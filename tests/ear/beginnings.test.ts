import { beforeAll, describe, expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { wordsOf } from '../../src/cues/grammarWords';
import { grammarOf } from '../../src/domain/hearing/building';
import { promptsOf } from '../../src/domain/hearing/prompts';
import { beginsAnother } from '../../src/ear/beginnings';
import type { Detector } from '../../src/ear/detecting';
import { lexiconFor } from '../../src/ear/lexicon';
import { Listening } from '../../src/ear/listening';
import { nodeDetector, nodeQuick, nodeRecogniser } from '../../src/ear/node';
import type { Recogniser } from '../../src/ear/recognising';
import { URGENT } from '../../src/ear/urgent';
import type { ShippedVoice } from '../../src/voice/node';
import { lexiconOf, phrases } from './grammars';
import { spoken } from './speech';

const book = bookOf();
const lexicon = lexiconFor(wordsOf(book));
const SQUAT = 'check/squat-bodyweight';

describe('a stop word that is the beginning of another reply', () => {
  const begins = (text: string, ...others: string[]) => {
    const grammar = phrases('idle', [text, ...others]);
    return beginsAnother(grammar, text, lexiconOf(grammar));
  };

  it.each([
    ['wait', 'weight back'],
    ['stop', 'step back'],
    ['stop', 'stopping distance'],
  ])('"%s" may go on to "%s"', (text, other) => {
    expect(begins(text, other)).toBe(true);
  });

  it.each([
    ['stop', 'popped'],
    ['wait', 'weight'],
    ['stop', 'knees forward'],
  ])('"%s" is told from "%s" without what follows', (text, other) => {
    expect(begins(text, other)).toBe(false);
  });

  it('is "wait" alone, and only where the weight may be at fault', () => {
    for (const { prompt } of promptsOf(book)) {
      const grammar = grammarOf(book, prompt);
      const weighs = grammar.arcs.some(({ words }) => /^weight/.test(words));
      const waiting = URGENT.filter((text) => beginsAnother(grammar, text, lexicon));
      expect(waiting, prompt).toEqual(weighs ? ['wait'] : []);
    }
  });
});

describe('as it is spoken', () => {
  let parts: { recogniser: Recogniser; quick: Recogniser; detector: Detector };
  beforeAll(async () => {
    parts = {
      recogniser: await nodeRecogniser(),
      quick: await nodeQuick(),
      detector: await nodeDetector(),
    };
  });

  const VOICES: ShippedVoice['name'][] = ['slt', 'rms', 'kal16', 'awb'];

  /** All words that are told of it, each with how long after its end. */
  async function toldOf(text: string, name: ShippedVoice['name'], prompt: string) {
    const said = await spoken(text, { voice: { name, stretch: 1 }, before: 1, after: 1.2 });
    const endSeconds = said.findLastIndex((sample) => Math.abs(sample) > 0.005) / 16000;
    const told: { text: string; afterSeconds: number }[] = [];
    let now = 0;
    parts.detector.reset();
    const listening = new Listening({
      ...parts,
      lexicon,
      urgent: new Set(URGENT),
      tell: (hearing) => {
        if (hearing.type === 'words')
          told.push({ text: hearing.text, afterSeconds: now - endSeconds });
      },
    });
    listening.attend(grammarOf(book, prompt));
    for (let at = 0; at < said.length; at += 512) {
      now = (at + 512) / 16000;
      await listening.push(said.slice(at, at + 512));
    }
    return told;
  }
  const textsOf = (told: { text: string }[]) => told.map(({ text }) => text);

  it.each(VOICES)('"weight back" is the fault, by the voice %s', async (name) => {
    expect(textsOf(await toldOf('weight back', name, SQUAT))).toEqual(['weight back']);
  });

  it('"weight back" is the fault where nothing is asked, too', async () => {
    expect(textsOf(await toldOf('weight back', 'awb', 'idle'))).toEqual(['weight back']);
  });

  it.each(["wait there's a plate loose", 'wait wait'])(
    '"wait" is heard where something else follows it: %s',
    async (text) => {
      expect(textsOf(await toldOf(text, 'slt', SQUAT))).toEqual(['wait']);
    },
  );

  it('"popped" is no "stop"', async () => {
    expect(textsOf(await toldOf('popped', 'awb', 'idle'))).toEqual(['popped']);
  });

  it.each([
    ['stop', 'idle', 0.15],
    ['pause', SQUAT, 0.15],
    ['wait', 'check/overhead-passive', 0.15],
    ['wait', SQUAT, 0.4],
  ])('"%s" alone at %s is told within %d s of its end', async (text, prompt, seconds) => {
    const told = await toldOf(text, 'awb', prompt);
    expect(textsOf(told)).toEqual([text]);
    expect(told[0]!.afterSeconds).toBeLessThan(seconds);
  });
});
