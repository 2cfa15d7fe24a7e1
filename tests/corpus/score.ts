import { readFileSync } from 'node:fs';
import { understand } from '../../src/domain/hearing/understanding';
import { NO_REPLY, type Reading, type Reply, type Verdict } from '../../src/domain/hearing/reply';
import type { CueBook } from '../../src/domain/script';

type Wanted = Partial<Reply> & { verdict: Verdict; and?: Partial<Reply> };

/** One line of a corpus: what is said where, and what of the reading is not null or empty. */
export interface Utterance {
  at: string;
  text: string;
  reading: Wanted;
  /** Other answers that its writer would take, said before it was read once. */
  or?: Wanted[];
}

export const corpus = (name: string): Utterance[] =>
  readFileSync(new URL(`${name}.jsonl`, import.meta.url), 'utf8')
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line) as Utterance);

export const reading = (book: CueBook, { at, text }: Utterance): Reading =>
  understand(book, at, text, { passLineDegrees: 155, painGoesOnUpTo: 2, confidence: 1 });

const sorted = (reply: Reply | null) => reply && { ...reply, faults: [...reply.faults].sort() };
const told = (kind: Verdict, reply: Reply | null, also?: Partial<Reply>) =>
  JSON.stringify([kind, sorted(reply), also && sorted({ ...NO_REPLY, ...also })]);
const wanted = ({ verdict, and, ...rest }: Wanted) =>
  told(verdict, verdict === 'ignore' ? null : { ...NO_REPLY, ...rest }, and);

/** The utterance with what was understood instead, or null where it is right. */
export function misread(book: CueBook, utterance: Utterance): string | null {
  const { at, text, or = [] } = utterance;
  const read = reading(book, utterance);
  const said = told(read.verdict, read.reply, read.and);
  if ([utterance.reading, ...or].some((each) => wanted(each) === said)) return null;
  const found = Object.entries(read.reply ?? {}).filter(([, value]) => value !== null);
  return `${at} "${text}": ${read.verdict} ${JSON.stringify(Object.fromEntries(found))}`;
}
