import { describe, expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { wordsOf } from '../../src/cues/grammarWords';
import { grammarOf } from '../../src/domain/hearing/building';
import { Agreeing } from '../../src/ear/agreeing';
import { ACTS_FROM } from '../../src/ear/confidence';
import { Halting } from '../../src/ear/halting';
import { lexiconFor } from '../../src/ear/lexicon';
import { nodeQuick } from '../../src/ear/node';
import type { HeardWords, Recogniser } from '../../src/ear/recognising';
import { URGENT } from '../../src/ear/urgent';
import { lexiconOf, phrases } from './grammars';
import { COACH_VOICE, SAYSO_VOICE, spoken } from './speech';

const opening = (...said: string[]) => {
  const grammar = phrases('idle', said);
  return { grammar, lexicon: lexiconOf(grammar) };
};
const OPEN = opening('stop', 'pause', 'wait', 'next');
const SOUND = (seconds: number) => new Float32Array(Math.round(seconds * 16000));

/** Looks for stop words with a reader that hears these, one a look, each so surely. */
function hearing(...each: ([text: string, confidence: number, spokenSeconds?: number] | null)[]) {
  const asked: string[] = [];
  const looked: number[] = [];
  const look: Recogniser['look'] = (sound, grammar) => {
    looked.push(sound.length / 16000);
    asked.push(...grammar.arcs.map(({ words }) => words));
    const [text, confidence, spokenSeconds = 0.3] = each.shift() ?? ['', 0];
    const heard: HeardWords = {
      ...{ text, confidence, following: 'nothing' },
      ...{ spokenSeconds, silenceSeconds: 0.05 },
    };
    return Promise.resolve({ heard: text === '' ? null : heard, talk: null });
  };
  return {
    halting: new Halting({ look }, new Set(['stop', 'pause', 'wait', 'please stop'])),
    asked,
    looked,
  };
}
const looks = async (halting: Halting, times: number, open = OPEN) => {
  const told: (string | null)[] = [];
  for (let at = 0; at < times; at += 1)
    told.push((await halting.look(SOUND, open, at))?.text ?? null);
  return told;
};

describe('a stop word that is looked for by itself', () => {
  it('is told from what is only alike, which the better reader shall look at too', async () => {
    const { halting } = hearing(['step', 0.9], ['stop', 0.35]);
    expect(await looks(halting, 1)).toEqual([null]);
    expect(halting.suspects).toBe(false);
    expect(await looks(halting, 1)).toEqual(['stop']);
    expect(halting.suspects).toBe(true);
  });

  it('leaves to others what may be the beginning of another reply', async () => {
    const open = opening('wait', 'stop', 'weight back');
    const { halting } = hearing(['wait', 0.9], ['wait', 0.9], ['stop', 0.9]);
    expect(await looks(halting, 3, open)).toEqual([null, null, 'stop']);
    expect(await looks(hearing(['wait', 0.9]).halting, 1)).toEqual(['wait']);
  });

  it('looks at nothing that was told', async () => {
    const { halting, looked } = hearing(null, null);
    halting.wasTold(10);
    await halting.look(SOUND, OPEN, 10.5);
    await halting.look(SOUND, OPEN, 20);
    expect(looked).toEqual([0.5, 1.2]);
  });

  it('looks at more where words begin so early that a "don\'t" may be out of sight', async () => {
    const { halting, looked } = hearing(['please stop', 0.9], ['dont please stop', 0.9]);
    expect(await looks(halting, 1)).toEqual(['please stop']);
    expect(looked).toEqual([1.2]);
    const early = hearing(['please stop', 0.9, 0.9], ['dont please stop', 0.9, 1.2]);
    expect(await looks(early.halting, 1)).toEqual([null]);
    expect(early.looked).toEqual([1.2, 1.55]);
  });

  it('looks more seldom while sound waits', async () => {
    const { halting } = hearing(null);
    await halting.look(SOUND, OPEN, 1);
    expect([halting.isTime(1.03, true), halting.isTime(1.07, true)]).toEqual([false, true]);
    expect([halting.isTime(1.07, false), halting.isTime(1.2, false)]).toEqual([false, true]);
  });

  it('looks sooner again where one was found and not believed', async () => {
    const { halting } = hearing(['stop', 0.15], ['step', 0.9]);
    await halting.look(SOUND, OPEN, 1);
    expect(halting.isTime(1.032, true)).toBe(true);
    await halting.look(SOUND, OPEN, 1.032);
    expect([halting.isTime(1.064, true), halting.isTime(1.096, true)]).toEqual([false, true]);
  });

  it('leaves out halting words that nothing says how to say', async () => {
    const { halting, asked } = hearing(null);
    await halting.look(SOUND, OPEN, 1);
    expect(asked).toEqual(expect.arrayContaining(['stop', 'pause', 'step', 'next', 'dont pause']));
    expect(asked).not.toContain('please stop');
  });
});

describe('what begins like a stop word and goes on', () => {
  /** What halts while this is said, looked at every 0.064 s from then on by the quick looks alone. */
  async function halts(
    text: string,
    voice: typeof COACH_VOICE,
    fromSeconds = 1.2,
  ): Promise<string[]> {
    const sound = await spoken(text, { voice, before: 1.2, after: 0.4 });
    const halting = new Halting(await nodeQuick(), new Set(URGENT));
    const book = bookOf();
    const open = { grammar: grammarOf(book, 'idle'), lexicon: lexiconFor(wordsOf(book)) };
    const agreeing = new Agreeing();
    const told: string[] = [];
    for (let at = fromSeconds; at <= sound.length / 16000; at += 0.064) {
      const latest = (seconds: number) =>
        sound.slice(Math.max(0, Math.round((at - seconds) * 16000)), Math.round(at * 16000));
      const heard = await halting.look(latest, open, at);
      agreeing.note('halting', heard, at);
      if (heard === null || agreeing.belief(at) < ACTS_FROM) continue;
      told.push(heard.text);
      halting.wasTold(at);
      agreeing.forget();
    }
    return told;
  }

  it.each(['please stay there', 'please stand tall', "don't stop there", "don't stop now"])(
    'halts nothing: %s',
    async (text) => {
      for (const voice of [COACH_VOICE, SAYSO_VOICE]) expect(await halts(text, voice)).toEqual([]);
    },
  );

  it('halts nothing where it is looked for only once the "don\'t" is over', async () => {
    for (const at of [2.3, 2.4, 2.5, 2.6])
      for (const voice of [COACH_VOICE, SAYSO_VOICE])
        expect(await halts("don't stop there", voice, at)).toEqual([]);
  });

  it('and the stop word itself halts', async () => {
    for (const voice of [COACH_VOICE, SAYSO_VOICE])
      expect(await halts('please stop', voice)).toEqual(['please stop']);
  });
});
