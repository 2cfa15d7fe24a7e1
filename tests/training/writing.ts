/**
 * Writes what the training voices say: replies out of the project's own grammar, numbers, words
 * near to replies, everyday talk and dictionary words, each with its phones and with rivals that
 * sound almost the same.
 *   npx tsx tests/training/writing.ts OUT.json [COUNT]
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { loadBook } from '../../src/cues/fromFolder';
import { grammarOf } from '../../src/domain/hearing/building';
import { promptsOf } from '../../src/domain/hearing/prompts';
import { urgentReplies } from '../bench/hearing/replies';
import { randomFrom } from '../ear/noises';
import { writtenLines } from './lines';

/** Debian's package scowl: commonest words first. */
const COMMON = ['10', '20', '35'].map((size) => `/usr/share/dict/scowl/english-words.${size}`);
const SEED = 23;
export const LINES = 60_000;
const KEPT_LINES = 4_000;
const URGENT_REPLIES = 600;

const [out, count = String(LINES)] = process.argv.slice(2);
if (out === undefined || !COMMON.every(existsSync)) {
  console.error('Say: writing.ts OUT.json [COUNT]. Debian\'s package "scowl" must be installed.');
  process.exitCode = 2;
} else {
  const book = loadBook('scripts-cues', 'en');
  const grammars = promptsOf(book).map(({ prompt }) => grammarOf(book, prompt));
  const common = COMMON.map((path) => readFileSync(path, 'latin1').split('\n'));
  const urgent = urgentReplies(book, URGENT_REPLIES, randomFrom(SEED)).map(({ text }) => text);
  const write = (seed: number, lines: number, onlyReplies: boolean) =>
    writtenLines({ grammars, common, urgent, seed, lines, onlyReplies });
  const written = {
    lines: write(SEED, Number(count), false),
    kept: write(SEED + 1, KEPT_LINES, true),
  };
  writeFileSync(out, JSON.stringify(written));
  const kinds = new Map<string, number>();
  for (const { kind } of written.lines) kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  console.log(Object.fromEntries(kinds));
}
