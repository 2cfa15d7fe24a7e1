import type { Grammar } from '../../domain/hearing/grammar';
import { FileDamagedError, FileMissingError } from '../../offline/fetching';
import { UNFITTED } from '../coach/coachEar';
import type { Lexicon } from '../lexicon';
import { beside, type PhoneReader } from '../phoneReader';
import { createRecogniser, type OpenRecogniser } from '../recognising';
import { keepsUp, watched, type WhySmall } from '../sizes';
import type { FromStrongWorker, Numbered, ToStrongWorker } from './messages';

/**
 * All that the worker of the strong ear does, apart from where its messages and models come from,
 * so that it also runs in Node. It looks with both readers and tells what each look finds; where it
 * cannot, or cannot keep up with the sound, it tells why, once. Returns what takes its messages.
 */
export function strongWorker(outside: {
  tell: (message: FromStrongWorker) => void;
  load: (assetsBase: string) => Promise<{ strong: PhoneReader; small: PhoneReader }>;
  /** Seconds, on any clock that only goes on. */
  now: () => number;
  /** Lets messages in: a look that somebody waits for goes before the second reading of another. */
  breathe: () => Promise<void>;
}): (message: ToStrongWorker) => void {
  const { tell, load, now, breathe } = outside;
  const grammars = new Map<number, Grammar>();
  const lexicons = new Map<number, Lexicon>();
  let recogniser: OpenRecogniser | null = null;
  let coach = UNFITTED;
  let isGone = false;

  const go = (why: WhySmall) => {
    if (!isGone) tell({ type: 'gone', why });
    isGone = true;
  };

  const start = async (assetsBase: string) => {
    const { strong, small } = await load(assetsBase);
    if (!(await keepsUp(strong, now))) return go('slow');
    recogniser = createRecogniser(
      watched(beside(strong, small), now, () => go('slow')),
      2,
      breathe,
    );
    recogniser.fit(coach);
    tell({ type: 'ready' });
  };

  const look = async (asked: Extract<ToStrongWorker, { type: 'look' }>) => {
    const grammar = known(grammars, asked.grammar);
    const lexicon = known(lexicons, asked.lexicon);
    if (recogniser === null) throw new Error('Asked to look before it was ready.');
    return recogniser.look(asked.samples, grammar, lexicon, asked.how);
  };

  return (message) => {
    switch (message.type) {
      case 'start':
        start(message.assetsBase).catch((problem: unknown) => go(whyOf(problem)));
        return;
      case 'fit':
        coach = message.coach;
        grammars.clear();
        lexicons.clear();
        return recogniser?.fit(coach);
      case 'look':
        look(message).then(
          (found) => tell({ type: 'looked', look: message.look, found }),
          (problem: unknown) =>
            tell({ type: 'not-looked', look: message.look, detail: String(problem) }),
        );
    }
  };
}

/** What cannot be made of a file that came whole is damaged too. */
const whyOf = (problem: unknown): WhySmall =>
  problem instanceof FileMissingError && !(problem instanceof FileDamagedError)
    ? 'missing'
    : 'damaged';

function known<Thing>(things: Map<number, Thing>, { number, thing }: Numbered<Thing>): Thing {
  if (thing !== undefined) things.set(number, thing);
  const found = things.get(number);
  if (found === undefined) throw new Error(`Nothing has the number ${number}.`);
  return found;
}
