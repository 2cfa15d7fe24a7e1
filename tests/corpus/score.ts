import { readFileSync } from 'node:fs';
import { understand } from '../../src/domain/hearing/understanding';
import { NO_REPLY, type Reading, type Reply, type Verdict } from '../../src/domain/hearing/reply';
import type { CueBook } from '../../src/domain/script';

/** One line of a corpus: what is said where, and what of the reading is not null or empty. */
export interface Utterance {
  at: string;
  text: string;
  reading: Partial<Reply> & { verdict: Verdict; and?: Partial<Reply> };
}

export const corpus = (name: string): Utterance[] =>
  readFileSync(new URL(`${name}.jsonl`, import.meta.url), 'utf8')
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line) as Utterance);

export const reading = (book: CueBook, { at, text }: Utterance): Reading =>
  understand(book, at, text, { passLineDegrees: 155, painGoesOnUpTo: 2, confidence: 1 });

/** The utterance with what was understood instead, or null where it is right. */
export function misread(book: CueBook, utterance: Utterance): string | null {
  const { verdict, and, ...rest } = utterance.reading;
  const wanted = verdict === 'ignore' ? null : { ...NO_REPLY, ...rest };
  const read = reading(book, utterance);
  const sorted = (reply: Reply | null) => reply && { ...reply, faults: [...reply.faults].sort() };
  const told = (kind: Verdict, reply: Reply | null, also?: Partial<Reply>) =>
    JSON.stringify([kind, sorted(reply), also && sorted({ ...NO_REPLY, ...also })]);
  if (told(read.verdict, read.reply, read.and) === told(verdict, wanted, and)) return null;
  const said = Object.entries(read.reply ?? {}).filter(([, value]) => value !== null);
  return `${utterance.at} "${utterance.text}": ${read.verdict} ${JSON.stringify(Object.fromEntries(said))}`;
}
