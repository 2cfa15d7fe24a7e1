import type { Grammar } from '../domain/hearing/grammar';
import { decode, type Decoded } from './decoding';
import type { Lexicon } from './lexicon';
import { networkOf, type Network } from './network';
import { latestTalk, type Posteriors } from './posteriors';

/** What two heads made of one sound; talk is where either hears some. */
export type Heads = readonly [Posteriors, Posteriors];

/** Each loses soft words now and then, and what came before them would count as talk of another. */
export function besideEachOther(first: Posteriors, second: Posteriors): Heads {
  const talk = latestTalk(first, second);
  return [
    { ...first, talk },
    { ...second, talk },
  ];
}

/** So many readings of each head are scored by both; those further behind were never the best of both. */
const READINGS = 5;

/**
 * The best reading of two heads that heard the same sound, as the mean of what both find: one
 * head's mistake is seldom the other's. Where it lies in the sound is told by the first. Null where
 * neither finds an utterance.
 */
export function decodeTogether(
  network: Network,
  lexicon: Lexicon,
  [first, second]: Heads,
): Decoded | null {
  const found = [first, second].map((posteriors) => decode(network, posteriors));
  const texts = new Set(found.flatMap(readingsOf));
  const known = new Map<string, Network>();
  const only = (text: string) => {
    const network = known.get(text) ?? networkOf(grammarOf(text), lexicon);
    known.set(text, network);
    return network;
  };
  const scored = [...texts].flatMap((text) => {
    const one = found[0]?.text === text ? found[0] : decode(only(text), first);
    const other = found[1]?.text === text ? found[1] : decode(only(text), second);
    return one && other ? [meanOf(one, other)] : [];
  });
  scored.sort((one, other) => other.score - one.score);
  const [best, ...others] = scored;
  return best ? { ...best, others: others.map(({ text, score }) => ({ text, score })) } : null;
}

const readingsOf = (decoded: Decoded | null): string[] =>
  decoded === null ? [] : [decoded, ...decoded.others].slice(0, READINGS).map(({ text }) => text);

const grammarOf = (text: string): Grammar => ({
  prompt: text,
  states: 2,
  arcs: [{ from: 0, to: 1, words: text }],
  finals: [1],
});

/** One reading as both heads find it; the words may be pronounced in one way by the one, in another by the other. */
function meanOf(one: Decoded, other: Decoded): Decoded {
  const mean = (a: number, b: number) => (a + b) / 2;
  return {
    ...one,
    score: mean(one.score, other.score),
    fitPerPhone: mean(one.fitPerPhone, other.fitPerPhone),
    sure: one.sure.map((word, at) => {
      const apart = meanIn(other.sure[at] ?? word) - meanIn(word);
      return word.map((sure) => sure + apart / 2);
    }),
  };
}

const meanIn = (values: number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;
