import type { CueBook } from '../../../../src/domain/script';
import { randomFrom } from '../../../ear/noises';
import { SHIPPED, type Speaker } from '../../../sounds/speakers';
import type { Done } from '../figures';
import { Hearers } from '../hearing';
import type { ReplyJob } from '../jobs';
import { oursFor } from '../ours';
import { condition } from '../planning';
import { isSingle, kindOf, sampleReplies, urgentReplies, type Wanted } from '../replies';
import type { SoundRoom } from '../sounding';
import { timeFigures } from '../timeFigures';
import { buildPages } from './building';
import { drive, loads } from './driving';
import { chromiumFigures, loadFigures, rateFigures, type ChromiumFigure } from './figures';

/** How much Chromium hears. */
export interface ChromiumSize {
  /** Of single answers, combined ones and stop words, each. */
  repliesEach: number;
  /** Replies for the growth of memory. */
  feeds: number;
  /** Replies at each rate of the microphone. */
  atRates: number;
  /** Whether the app's page is loaded over each line. */
  loads: boolean;
}
export const CHROMIUM: ChromiumSize = { repliesEach: 40, feeds: 1000, atRates: 6, loads: true };

const RATES = [16000, 44100, 48000];
const CONDITIONS = [condition(null, null), condition('pink', 20), condition('pink', 10)];

/** Single answers, combined ones and stop words, as the reported voices say them. */
export function chromiumJobs(
  { book, speakers }: { book: CueBook; speakers: Speaker[] },
  each: number,
  seed: number,
): ReplyJob[] {
  const random = randomFrom(seed + 7);
  const reported = speakers.filter(({ half }) => half === 'reported');
  const among = reported.length > 0 ? reported : [SHIPPED];
  // A few are drawn out of fewer, since each has to be understood.
  const drawn = sampleReplies(book, 40 + each * 8, random, Math.min(700, 50 * each)).filter(
    ({ reply }) => kindOf(reply) !== 'stop',
  );
  const stops = urgentReplies(book, each * 3, random).filter(
    ({ reply }) => kindOf(reply) === 'stop',
  );
  const job = (part: ReplyJob['part'], wanted: Wanted, at: number): ReplyJob => ({
    kind: 'reply',
    part,
    half: 'reported',
    condition: CONDITIONS[at % CONDITIONS.length] ?? condition(null, null),
    wanted,
    isInGrammar: true,
    spoken: {
      speaker: among[at % among.length] ?? SHIPPED,
      text: wanted.text,
      rate: [1, 1.1, 1.2][Math.floor(random() * 3)] ?? 1,
    },
    seed: Math.floor(random() * 2 ** 31),
    ears: ['ours'],
  });
  const some = (part: ReplyJob['part'], of: Wanted[]) =>
    of.slice(0, each).map((wanted, at) => job(part, wanted, at));
  return [
    ...some(
      'replies',
      drawn.filter(({ reply }) => isSingle(reply)),
    ),
    ...some(
      'replies',
      drawn.filter(({ reply }) => !isSingle(reply)),
    ),
    ...some('urgent', stops),
  ];
}

/** Builds the pages, lets Chromium and then Node hear the same replies, and compares. */
export async function browserBench(
  book: CueBook,
  sounds: SoundRoom,
  jobs: ReplyJob[],
  size: ChromiumSize,
): Promise<ChromiumFigure[]> {
  await buildPages({ withApp: size.loads });
  const loaded = size.loads ? await loads() : [];
  const { feeds, atRates } = size;
  const driven = await drive(book, sounds, jobs, { feeds, atRates, rates: RATES });
  const own = { sampleRate: driven.sampleRate, heard: driven.heard.slice(0, atRates) };
  const ear = await oursFor(book);
  const hearers = new Hearers({
    book,
    ears: new Map([[ear.name, ear]]),
    sounds,
    forgetful: () => Promise.resolve(ear),
  });
  const inNode: Done = [];
  for (const job of jobs) inNode.push({ job, answers: await hearers.hear(job) });
  return [
    ...chromiumFigures(driven, timeFigures(inNode)),
    ...(atRates > 0 ? [own, ...driven.further] : []).flatMap(rateFigures),
    ...loadFigures(loaded),
  ];
}
