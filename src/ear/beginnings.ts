import type { Grammar } from '../domain/hearing/grammar';
import {
  firstRow,
  phonesOf,
  rowAfter,
  TOO_FEW_PHONES,
  tooFew,
  type Lexicon,
} from '../domain/hearing/phonesApart';
import { arcsFrom, meaningsIn, type Arc } from './meaning';

const known = new WeakMap<Lexicon, WeakMap<Grammar, Map<string, boolean>>>();

/**
 * Whether a reply of another meaning begins so like this one that only what follows tells them
 * apart: "wait", where "weight back" may be said. By the distance that refuses replies which sound
 * alike. What begins with the very words of a whole utterance is left to `followingOf`.
 */
export function beginsAnother(grammar: Grammar, text: string, lexicon: Lexicon): boolean {
  const byGrammar = known.get(lexicon) ?? new WeakMap<Grammar, Map<string, boolean>>();
  known.set(lexicon, byGrammar);
  const byText = byGrammar.get(grammar) ?? new Map<string, boolean>();
  byGrammar.set(grammar, byText);
  const begins =
    byText.get(text) ??
    phonesOf(text, lexicon).some((said) => isBegun(grammar, { text, said, lexicon }));
  byText.set(text, begins);
  return begins;
}

/** What was said up to some state: how many phones, and how far from each beginning of the text. */
interface Way {
  words: string;
  length: number;
  row: number[];
}

function isBegun(
  grammar: Grammar,
  { text, said, lexicon }: { text: string; said: string[]; lexicon: Lexicon },
): boolean {
  const finals = new Set(grammar.finals);
  const told = meaningsIn(grammar, text);
  const same = new Set(told ?? [text]);

  /** Whether some way on through this arc comes to mean something else. */
  const leadsElsewhere = (arc: Arc): boolean => {
    const means = told === null ? arc.words : arc.means;
    if (means !== undefined) return !same.has(means);
    return arcsFrom(grammar, arc.to).some(leadsElsewhere);
  };

  const isAlike = ({ row, length }: Way) =>
    tooFew(row[said.length] ?? Infinity, Math.max(length, said.length));

  const goesOn = (state: number, before: Way): boolean =>
    arcsFrom(grammar, state).some((arc) => {
      const words = `${before.words} ${arc.words}`.trim();
      return phonesOf(arc.words, lexicon).some((phones) => {
        let way = before;
        for (const [at, phone] of phones.entries()) {
          way = { words, length: way.length + 1, row: rowAfter(way.row, phone, said) };
          if (Math.min(...way.row) > TOO_FEW_PHONES) return false;
          if (at < phones.length - 1 && isAlike(way) && leadsElsewhere(arc)) return true;
        }
        if (words === text && finals.has(arc.to)) return false;
        if (isAlike(way) && arcsFrom(grammar, arc.to).some(leadsElsewhere)) return true;
        return goesOn(arc.to, way);
      });
    });

  return goesOn(0, { words: '', length: 0, row: firstRow(said) });
}
