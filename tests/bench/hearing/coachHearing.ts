import { grammarOf } from '../../../src/domain/hearing/building';
import type { Grammar } from '../../../src/domain/hearing/grammar';
import type { CueBook, PromptId } from '../../../src/domain/script';
import { lexiconOf, type CoachEar } from '../../../src/ear/coach/coachEar';
import { fittedReader } from '../../../src/ear/coach/fittedReader';
import { freeRowOf } from '../../../src/ear/coach/rows';
import type { Lexicon } from '../../../src/ear/lexicon';
import type { PhoneReader } from '../../../src/ear/phoneReader';
import { createRecogniser, type Recogniser } from '../../../src/ear/recognising';
import { outcomeOf } from './hearing';
import { understood, type Wanted } from './replies';

/** One clip: what was said, where, in which noise. */
export interface Clip {
  sound: Float32Array;
  prompt: PromptId;
  wanted: Wanted | null;
}

export type Hearing = ReturnType<typeof hearing>;

/** An ear fitted to a coach, with what it makes of a clip. */
export function hearing(book: CueBook, reader: PhoneReader, base: Lexicon, coach: CoachEar) {
  const recogniser: Recogniser = createRecogniser(fittedReader(reader, coach));
  const lexicon = lexiconOf(base, coach);
  const grammars = new Map<PromptId, Grammar>();
  const grammarAt = (prompt: PromptId) => {
    const grammar = grammars.get(prompt) ?? grammarOf(book, prompt);
    grammars.set(prompt, grammar);
    return grammar;
  };
  const hear = ({ sound, prompt }: Pick<Clip, 'sound' | 'prompt'>) =>
    recogniser.hear(sound, grammarAt(prompt), lexicon);
  return {
    lexicon,
    outcome: async (clip: Clip) => {
      const heard = await hear(clip);
      const told = heard === null ? [] : [heard];
      return clip.wanted === null
        ? 'missed'
        : outcomeOf(book, { wanted: clip.wanted }, told).outcome;
    },
    verdict: async (clip: Clip) => {
      const heard = await hear(clip);
      return heard && understood(book, clip.prompt, heard.text, heard.confidence).verdict;
    },
    reading: async (clip: Pick<Clip, 'sound' | 'prompt'> & { text: string }) => {
      const weighed = await recogniser.weigh(clip.sound, grammarAt(clip.prompt), lexicon);
      if (weighed === null) return null;
      const isRight =
        JSON.stringify(understood(book, clip.prompt, weighed.decoded.text).reply) ===
        JSON.stringify(understood(book, clip.prompt, clip.text).reply);
      return {
        text: clip.text,
        phones: freeRowOf(weighed.posteriors),
        confidence: isRight ? weighed.confidence : null,
      };
    },
  };
}

/** What a sound was read as is kept, so that another fit costs only its scoring. */
export function remembering(reader: PhoneReader): PhoneReader {
  const known = new Map<string, ReturnType<PhoneReader['read']>>();
  return {
    ...reader,
    ...(reader.beside && { beside: remembering(reader.beside) }),
    read: (samples) => {
      let hash = 0x811c9dc5;
      for (const bits of new Uint32Array(samples.buffer, samples.byteOffset, samples.length))
        hash = Math.imul(hash ^ bits, 0x01000193);
      const key = `${samples.length}:${hash >>> 0}`;
      const read = known.get(key) ?? reader.read(samples);
      known.set(key, read);
      return read;
    },
  };
}
