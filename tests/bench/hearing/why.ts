import { wordsOf } from '../../../src/cues/grammarWords';
import { UNFITTED } from '../../../src/ear/coach/coachEar';
import { lexiconFor } from '../../../src/ear/lexicon';
import { readerOf } from '../../../src/ear/node';
import { padded } from '../../ear/speech';
import { spokenBy } from '../../sounds/speakers';
import { table } from './printing';
import type { Apart, Stage } from './apart';
import { hearing, remembering } from './coachHearing';
import { outcomeOf } from './hearing';
import type { Heard } from './hearingEar';
import type { Outcome, ReplyJob } from './jobs';
import { oursFor } from './ours';
import { replyJobs, SHORT } from './planning';
import { LEAD_SECONDS } from './sounding';

/** Sound around a reply that is cut as it was spoken. */
const AROUND_SECONDS = 0.3;
const REPLIES_EACH = 12;

/** What a reply of the tuned half that was not heard right is put down to. */
const CAUSES = [
  'never noticed',
  'noticed, never ended',
  'nothing believed on the way',
  'told before it was whole',
  'other words told',
  'in the noise, believed too little',
  'in the noise, another reading',
  'believed too little though clean',
  'another reading though clean',
] as const;
type Cause = (typeof CAUSES)[number];

export interface WhyFigure {
  figure: 'why';
  condition: string;
  n: number;
  right: number;
  causes: Partial<Record<Cause, number>>;
}

/**
 * `--part why`, the tuned half alone: each reply goes the app's way, then is read once cut as it was
 * spoken, and once clean; what fails first is the cause.
 */
export async function whyPart({ book, speakers, sounds, seed, share }: Stage): Promise<Apart> {
  const tuned = speakers.filter(({ half }) => half === 'tuned');
  const each = Math.max(1, Math.round(REPLIES_EACH * share));
  const size = { ...SHORT, repliesEach: { tuned: each, reported: 0 }, urgent: 0, corpus: 0 };
  const jobs = replyJobs({ book, speakers: tuned, human: [], ears: ['ours'] }, size, seed);
  const ear = await oursFor(book);
  const reader = remembering(await readerOf('strong'));
  const once = hearing(book, reader, lexiconFor(wordsOf(book)), UNFITTED);
  const figures: WhyFigure[] = [];
  for (const job of jobs) {
    const { prompt, text } = job.wanted;
    const { sound, endSeconds } = await sounds.reply(job);
    const heard = await ear.hear(sound, prompt);
    const { outcome, by } = outcomeOf(book, job, heard.told);
    const name = job.condition.name;
    const known = figures.find(({ condition }) => condition === name);
    const figure = known ?? { figure: 'why', condition: name, n: 0, right: 0, causes: {} };
    if (known === undefined) figures.push(figure);
    figure.n += 1;
    if (isRight(outcome)) {
      figure.right += 1;
      continue;
    }
    const at = (seconds: number) => Math.round(seconds * 16000);
    const cut = sound.slice(at(LEAD_SECONDS - AROUND_SECONDS), at(endSeconds + AROUND_SECONDS));
    const clean = padded(await spokenBy(job.spoken), AROUND_SECONDS, AROUND_SECONDS);
    const read = (some: Float32Array) => once.outcome({ sound: some, prompt, wanted: job.wanted });
    const believed = async (some: Float32Array) =>
      (await once.reading({ sound: some, prompt, text }))?.confidence ?? null;
    const cause: Cause = isRight(await read(cut))
      ? onTheWay(job, heard, by?.text ?? null)
      : isRight(await read(clean))
        ? (await believed(cut)) === null
          ? 'in the noise, another reading'
          : 'in the noise, believed too little'
        : (await believed(clean)) === null
          ? 'another reading though clean'
          : 'believed too little though clean';
    figure.causes[cause] = (figure.causes[cause] ?? 0) + 1;
  }
  return { figures, goals: [], shown: shownOf(figures) };
}

const isRight = (outcome: Outcome) => outcome === 'accepted' || outcome === 'asked';

/** Cut as it was spoken it is heard right: what lost it on the way there. */
function onTheWay({ wanted }: ReplyJob, { stoppedAt }: Heard, told: string | null): Cause {
  if (told !== null)
    return wanted.text.includes(told) ? 'told before it was whole' : 'other words told';
  if (stoppedAt === 'no speech noticed') return 'never noticed';
  return stoppedAt === 'speech never ended'
    ? 'noticed, never ended'
    : 'nothing believed on the way';
}

const shownOf = (figures: WhyFigure[]): string =>
  table(
    'Why replies of the tuned half were not heard right',
    ['condition', 'n', 'right', 'why not'],
    figures.map(({ condition, n, right, causes }) => [
      ...[condition, `${n}`, `${right}`],
      CAUSES.flatMap((cause) => (causes[cause] ? `${cause} ${causes[cause]}` : [])).join(', '),
    ]),
  );
