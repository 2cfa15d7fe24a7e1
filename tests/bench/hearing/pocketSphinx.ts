import { fileURLToPath } from 'node:url';
import createModule, { type Decoder } from 'soundswallower';
import { wordsOf } from '../../../src/cues/grammarWords';
import { grammarOf } from '../../../src/domain/hearing/building';
import type { CueBook, PromptId } from '../../../src/domain/script';
import { lexiconFor } from '../../../src/ear/lexicon';
import { PHONES } from '../../../src/ear/phones';
import { wordGraphOf, type WordGraph } from '../../../src/ear/wordGraph';
import { utterancesIn, type BenchEar, type Told } from './hearingEar';

/** The best settings found for short replies; padding is silence around each utterance. */
const SETTINGS = {
  samprate: 16000,
  lw: 2,
  fillprob: 0.1,
  silprob: 0.3,
  beam: 1e-60,
  remove_noise: false,
  cmn: 'live',
  loglevel: 'FATAL',
};
const MODELS = fileURLToPath(new URL('./model/', import.meta.resolve('soundswallower')));
const PADDING_SAMPLES = 2400;
/** Chance of three phones or more in any order: what is heard so is no reply. */
const LOOP_CHANCE = 1e-8;
const loopWord = (phone: string) => `phone-${phone.toLowerCase()}`;

/** PocketSphinx with the prompt's replies as its grammar, pronounced as ours are. */
export async function pocketSphinxFor(book: CueBook): Promise<BenchEar> {
  // Its types lack where the models lie.
  const where: object = { modelBase: MODELS };
  const module = await createModule(where);
  const decoder = new module.Decoder(SETTINGS);
  await decoder.initialize();
  const words = Object.entries(lexiconFor(wordsOf(book)));
  decoder.add_words(
    ...words.flatMap(([word, ways]) =>
      ways.map((phones, at): [string, string] => [
        at === 0 ? saidAs(word) : `${saidAs(word)}(${at + 1})`,
        phones.join(' '),
      ]),
    ),
    ...PHONES.map((phone): [string, string] => [loopWord(phone), phone]),
  );
  const machine = module as unknown as Machine;
  let open: PromptId | null = null;
  const attend = (prompt: PromptId) => {
    if (open !== prompt) setGraph(machine, decoder, wordGraphOf(grammarOf(book, prompt)));
    open = prompt;
  };
  // After start-up it hears a reply where there is none.
  attend('idle');
  decoder.start();
  decoder.process_audio(new Float32Array(32000), false, true);
  decoder.stop();
  return {
    name: 'pocketsphinx',
    hear: async (sound, prompt) => {
      attend(prompt);
      const told: Told[] = [];
      const lookMilliseconds: number[] = [];
      for (const utterance of await utterancesIn(sound)) {
        const padded = new Float32Array(utterance.length + 2 * PADDING_SAMPLES);
        padded.set(utterance, PADDING_SAMPLES);
        const began = performance.now();
        decoder.start();
        decoder.process_audio(padded, false, true);
        decoder.stop();
        lookMilliseconds.push(performance.now() - began);
        const text = (decoder.get_text() ?? '').replace(/\(\d+\)/g, '').replaceAll('reply-', '');
        if (text !== '' && !text.includes('phone-'))
          told.push({ text: text.trim(), confidence: 1, atSeconds: null, heardSeconds: null });
      }
      return { told, lookMilliseconds };
    },
  };
}

/** Own names, so that the words keep our pronunciations and not those of its dictionary. */
const saidAs = (word: string) => `reply-${word}`;

/** What its module exports beyond its types: its grammar as states and arrows. */
interface Machine {
  HEAPU8: Uint8Array;
  _malloc(bytes: number): number;
  _free(at: number): void;
  _decoder_logmath(decoder: number): number;
  _logmath_log(logmath: number, chance: number): number;
  _fsg_model_init(name: number, logmath: number, weight: number, states: number): number;
  _fsg_set_states(fsg: number, start: number, final: number): void;
  _fsg_model_word_add(fsg: number, word: number): number;
  _fsg_model_trans_add(fsg: number, from: number, to: number, log: number, word: number): void;
  _fsg_model_null_trans_add(fsg: number, from: number, to: number, log: number): number;
  _decoder_set_fsg(decoder: number, fsg: number): number;
}

/**
 * The same words as states and arrows. Written out as a JSGF text a grammar of this size would be
 * unrolled, and fill the memory.
 */
function setGraph(machine: Machine, decoder: Decoder, graph: WordGraph): void {
  const { cdecoder } = decoder as unknown as { cdecoder: number };
  const withText = <T>(text: string, use: (at: number) => T): T => {
    const bytes = new TextEncoder().encode(`${text}\0`);
    const at = machine._malloc(bytes.length);
    machine.HEAPU8.set(bytes, at);
    const result = use(at);
    machine._free(at);
    return result;
  };
  const logmath = machine._decoder_logmath(cdecoder);
  const log = (chance: number) => machine._logmath_log(logmath, chance) * SETTINGS.lw;
  const replies = graph.arcs.length;
  const [one, two, three, end] = [replies, replies + 1, replies + 2, replies + 3] as const;
  const fsg = withText('replies', (at) =>
    machine._fsg_model_init(at, logmath, SETTINGS.lw, replies + 4),
  );
  machine._fsg_set_states(fsg, 0, end);
  const numbers = new Map<string, number>();
  const add = (from: number, to: number, word: string, cost: number) => {
    const number =
      numbers.get(word) ?? withText(word, (at) => machine._fsg_model_word_add(fsg, at));
    numbers.set(word, number);
    machine._fsg_model_trans_add(fsg, from, to, cost, number);
  };
  graph.arcs.forEach((arcs, state) => {
    for (const { word, to } of arcs) add(state, to, saidAs(word), 0);
    if (graph.final[state]) machine._fsg_model_null_trans_add(fsg, state, end, 0);
  });
  for (const phone of PHONES) {
    const cost = log(1 / PHONES.length);
    add(0, one, loopWord(phone), cost + log(LOOP_CHANCE));
    add(one, two, loopWord(phone), cost);
    add(two, three, loopWord(phone), cost);
    add(three, three, loopWord(phone), cost);
  }
  machine._fsg_model_null_trans_add(fsg, three, end, 0);
  if (machine._decoder_set_fsg(cdecoder, fsg) < 0) throw new Error('PocketSphinx took no grammar.');
}
