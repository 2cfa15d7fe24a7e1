import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { promptsOf } from '../domain/hearing/prompts';
import type { Reading } from '../domain/hearing/reply';
import { understandEither, type EitherWords } from '../domain/hearing/either';
import { DEFAULT_SETTINGS } from '../domain/log';
import type { CueBook } from '../domain/script';
import { callWordOf } from './callWord';
import type { FileEar } from './recogniser';
import { Refused, WrongUsage } from './refused';
import { answer, bookOf, mustBeHeard, mustExist, parse, type Verb } from './verb';

export const hear: Verb = {
  does: 'understands one utterance, typed or in a sound file, at a prompt',
  usage:
    'Usage: sayso hear --at PROMPT TEXT\n' +
    '       sayso hear --at PROMPT --audio FILE.wav\n' +
    '       sayso hear --jsonl FILE     ({"at","text"} or {"at","audio"} a line)\n' +
    '       [--call-word WORD] [--language en]\n\n' +
    'Prints {"heard","verdict","reply","confidence","readback"} a line, in order.\n' +
    'Sound: any rate, mono or stereo WAV. `sayso prompts` lists the prompt ids.\n' +
    'With a call word replies count only after it; stop, pain and warning signs do without.',
  async run(args) {
    const { values, positionals } = parse(args, ['at', 'audio', 'jsonl', 'call-word']);
    const { at, audio, jsonl } = values;
    const text = positionals.join(' ');
    const given = [audio, jsonl, text || undefined].filter((each) => each !== undefined);
    if (given.length !== 1) throw new WrongUsage('Give one of TEXT, --audio or --jsonl.');
    const book = bookOf(values.language);
    const hearing = new Hearing(book, callWordOf(book, values['call-word']));
    if (jsonl !== undefined) {
      if (at !== undefined) throw new WrongUsage('With --jsonl each line says its own "at".');
      return hearing.lines(mustExist(jsonl));
    }
    if (at === undefined) throw new WrongUsage('Say at which prompt: --at PROMPT.');
    answer(await (audio === undefined ? hearing.text(at, text) : hearing.audio(at, audio)));
    return 0;
  },
};

class Hearing {
  /** Loaded where the first sound file comes: words alone need no models. */
  private ear: FileEar | undefined;
  private readonly prompts: string[];

  constructor(
    private readonly book: CueBook,
    private readonly callWord: string | undefined,
  ) {
    this.prompts = promptsOf(book).map(({ prompt }) => prompt);
  }

  text(at: string, text: string): Reading {
    return this.understood(this.known(at), { text }, 1);
  }

  async audio(at: string, path: string): Promise<Reading> {
    const prompt = this.known(at);
    mustBeHeard(this.book);
    const { FileEar } = await import('./recogniser');
    this.ear ??= new FileEar(this.book, this.callWord);
    const { heard } = await this.ear.hear(path, prompt);
    return heard === null
      ? { heard: '', verdict: 'ignore', reply: null, confidence: 0, readback: null }
      : this.understood(at, heard, heard.confidence);
  }

  /** A line that cannot be read is answered by its error; the rest goes on. */
  async lines(path: string): Promise<number> {
    let status = 0;
    for (const [index, line] of readFileSync(path, 'utf8').split(/\r?\n/).entries()) {
      if (line.trim() === '') continue;
      try {
        answer(await this.line(line, dirname(path)));
      } catch (problem) {
        answer({ error: `line ${index + 1}: ${(problem as Error).message}` });
        status = 1;
      }
    }
    return status;
  }

  private async line(line: string, folder: string): Promise<Reading> {
    const asked = parsed(line);
    const { at, text, audio } = asked;
    if (typeof at !== 'string') throw new Refused('"at" is missing: name a prompt.');
    if (typeof text === 'string' && audio === undefined) return this.text(at, text);
    if (typeof audio === 'string' && text === undefined) {
      return this.audio(at, resolve(folder, audio));
    }
    throw new Refused('give either "text" or "audio", as text.');
  }

  private understood(prompt: string, words: EitherWords, confidence: number): Reading {
    const { passLineDegrees, painGoesOnUpTo } = DEFAULT_SETTINGS;
    const { callWord } = this;
    const lines = { passLineDegrees, painGoesOnUpTo };
    return understandEither(this.book, prompt, words, { ...lines, confidence, callWord });
  }

  private known(prompt: string): string {
    if (this.prompts.includes(prompt)) return prompt;
    throw new Refused(`There is no prompt "${prompt}". Known: ${this.prompts.join(', ')}.`);
  }
}

function parsed(line: string): Record<string, unknown> {
  try {
    const value: unknown = JSON.parse(line);
    if (typeof value === 'object' && value !== null) return value as Record<string, unknown>;
  } catch {
    // told below
  }
  throw new Refused('not a JSON object such as {"at":"idle","text":"stop"}.');
}
