import { HEARD_FROM, confidenceOf, evidenceIn } from '../ear/confidence';
import { decode } from '../ear/decoding';
import { lexiconFor, type Lexicon } from '../ear/lexicon';
import { networkOf } from '../ear/network';
import { EarFileError, nodeRecogniser, readWav, utteranceOf } from '../ear/node';
import { OWN_WORDS } from '../ear/ownWords';
import type { Posteriors } from '../ear/posteriors';
import type { Recogniser } from '../ear/recognising';
import { HEARD_RATE } from '../ear/resampling';
import { wordsOf } from '../cues/grammarWords';
import { grammarOf } from '../domain/hearing/building';
import type { CueBook, PromptId } from '../domain/script';
import { Refused } from './refused';

export interface HeardAudio {
  /** Null where nothing in the sound could be a reply. */
  heard: { text: string; confidence: number } | null;
  seconds: number;
}

/** What the recogniser makes of sound files, the models loaded once and only if there is a file. */
export class FileEar {
  private recogniser: Promise<Recogniser> | undefined;
  private lexicon: Lexicon | undefined;

  constructor(
    private readonly book: CueBook,
    private readonly callWord?: string | undefined,
  ) {}

  /** @throws Refused that says why the file cannot be read. */
  async sound(path: string): Promise<{ speech: Float32Array | null; seconds: number }> {
    try {
      const samples = await readWav(path);
      return { speech: await utteranceOf(samples, path), seconds: samples.length / HEARD_RATE };
    } catch (problem) {
      if (problem instanceof EarFileError) throw new Refused(problem.message);
      throw problem;
    }
  }

  async hear(path: string, prompt: PromptId): Promise<HeardAudio> {
    const { speech, seconds } = await this.sound(path);
    if (speech === null) return { heard: null, seconds };
    const recogniser = await (this.recogniser ??= nodeRecogniser());
    return { heard: await recogniser.hear(speech, this.grammar(prompt), this.words()), seconds };
  }

  /** Listens once, so that the words at any prompt can be had without waiting. */
  async prepare(path: string): Promise<(prompt: PromptId) => HeardAudio> {
    const { speech, seconds } = await this.sound(path);
    const recogniser = await (this.recogniser ??= nodeRecogniser());
    const weighed = speech && (await recogniser.weigh(speech, this.grammar('idle'), this.words()));
    return (prompt) => ({ heard: weighed && this.decoded(weighed.posteriors, prompt), seconds });
  }

  private decoded(posteriors: Posteriors, prompt: PromptId): HeardAudio['heard'] {
    const grammar = this.grammar(prompt);
    const decoded = decode(networkOf(grammar, this.words()), posteriors);
    if (decoded === null) return null;
    const confidence = confidenceOf(evidenceIn(decoded, grammar));
    return confidence < HEARD_FROM ? null : { text: decoded.text, confidence };
  }

  private readonly grammars = new Map<PromptId, ReturnType<typeof grammarOf>>();
  private grammar(prompt: PromptId) {
    const grammar =
      this.grammars.get(prompt) ?? grammarOf(this.book, prompt, { callWord: this.callWord });
    this.grammars.set(prompt, grammar);
    return grammar;
  }

  private words(): Lexicon {
    return (this.lexicon ??= lexiconFor(
      [...wordsOf(this.book), ...(this.callWord?.split(' ') ?? [])],
      OWN_WORDS,
    ));
  }
}
