import type { Lexicon } from '../../src/ear/lexicon';
import { PHONES } from '../../src/ear/phones';

/** Phones that are easily taken for each other: those of one group. */
const GROUPS = [
  ...['P T K', 'B D G', 'P B', 'T D', 'K G', 'F TH S', 'S Z', 'SH CH JH ZH', 'V DH Z', 'M N NG'],
  ...[
    'F V',
    'TH DH',
    'L R W Y',
    'IY IH EY Y',
    'EH AE IH EY',
    'AH AA AE EH UH',
    'AO AA OW',
    'UW UH OW',
  ],
  ...['AY AA AE', 'AW AA OW', 'OY AO', 'ER R AH', 'HH F', 'D DH', 'T CH', 'L OW'],
].map((group) => new Set(group.split(' ')));

const numberOf = new Map(PHONES.map((phone, index) => [phone, index]));
const ONE_MORE = 0.8;
const ALIKE = 0.5;

/** What it costs to take one phone for another: 0 the same, 1 not alike. */
const swap = PHONES.map((a) =>
  PHONES.map((b) =>
    a === b ? 0 : GROUPS.some((group) => group.has(a) && group.has(b)) ? ALIKE : 1,
  ),
);

/** Cost of the cheapest way from one row of phones to another; Infinity where it is over `most`. */
export function phoneDistance(a: string[], b: string[], most = Infinity): number {
  if (Math.abs(a.length - b.length) * ONE_MORE > most) return Infinity;
  const to = b.map((phone) => numberOf.get(phone) ?? 0);
  let row = Float64Array.from({ length: b.length + 1 }, (_, at) => at * ONE_MORE);
  let next = new Float64Array(b.length + 1);
  for (const phone of a) {
    const costs = swap[numberOf.get(phone) ?? 0] ?? [];
    next[0] = row[0]! + ONE_MORE;
    let least = next[0];
    for (let at = 0; at < to.length; at += 1) {
      const cost = Math.min(
        row[at]! + costs[to[at]!]!,
        row[at + 1]! + ONE_MORE,
        next[at]! + ONE_MORE,
      );
      next[at + 1] = cost;
      if (cost < least) least = cost;
    }
    if (least > most) return Infinity;
    [row, next] = [next, row];
  }
  return row[b.length] ?? Infinity;
}

/** The words that a word is nearest to in sound: replies, and for a reply others too. */
export function nearWords(replies: string[], words: string[], lexicon: Lexicon) {
  const known = new Map<string, string[]>();
  const said = new Set(replies);
  const first = (word: string) => lexicon[word]?.[0] ?? [];
  const nearest = (word: string, among: string[], count: number, most: number) =>
    among
      .map((other) => ({ other, far: phoneDistance(first(word), first(other), most) }))
      .filter(({ far }) => far > 0 && far <= most)
      .sort((a, b) => a.far - b.far)
      .slice(0, count)
      .map(({ other }) => other);
  return (word: string): string[] => {
    const found = known.get(word);
    if (found !== undefined) return found;
    const length = first(word).length;
    const most = length < 4 ? 1.1 : length < 7 ? 1.8 : 2.4;
    const others = said.has(word) ? nearest(word, words, 6, most) : [];
    const near = [...nearest(word, replies, 5, most + 0.6), ...others];
    known.set(word, near);
    return near;
  };
}
