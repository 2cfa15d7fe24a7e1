import { grammarOf } from '../../../src/domain/hearing/building';
import type { Reply } from '../../../src/domain/hearing/reply';
import type { CueBook } from '../../../src/domain/script';
import { followingOf } from '../../../src/ear/meaning';
import { randomFrom } from '../../ear/noises';
import { padded } from '../../ear/speech';
import { spokenBy } from '../../sounds/speakers';
import type { BenchEar, Told } from './hearingEar';
import type { Answer, EarName, Job, MemoryJob, Outcome, ReplyJob, TalkJob } from './jobs';
import { understood } from './replies';
import type { SoundRoom } from './sounding';

/** Hears jobs with the ears that each names. */
export class Hearers {
  constructor(
    private readonly parts: {
      book: CueBook;
      ears: Map<EarName, BenchEar>;
      sounds: SoundRoom;
      /** Our ear without a memory of sounds, so that its own use of memory shows. */
      forgetful: () => Promise<BenchEar>;
    },
  ) {}

  hear(job: Job): Promise<Answer[]> {
    if (job.kind === 'reply') return this.reply(job);
    return job.kind === 'talk' ? this.talk(job) : this.memory(job);
  }

  private earsOf(names: EarName[]): BenchEar[] {
    return names.flatMap((name) => this.parts.ears.get(name) ?? []);
  }

  private async reply(job: ReplyJob): Promise<Answer[]> {
    const { sound, endSeconds } = await this.parts.sounds.reply(job);
    const answers: Answer[] = [];
    for (const ear of this.earsOf(job.ears)) {
      const { told, lookMilliseconds, stoppedAt } = await ear.hear(sound, job.wanted.prompt);
      const { outcome, by } = outcomeOf(this.parts.book, job, told);
      const after = (seconds: number | null | undefined) =>
        seconds == null || (outcome !== 'accepted' && outcome !== 'asked')
          ? null
          : 1000 * (seconds - endSeconds);
      answers.push({
        kind: 'reply',
        ear: ear.name,
        outcome,
        heard: by?.text ?? told.map(({ text }) => text).join(' / '),
        confidence: by?.confidence ?? 0,
        why:
          outcome !== 'missed'
            ? null
            : !job.isInGrammar
              ? 'not in the grammar'
              : (stoppedAt ?? 'not believed, or not understood'),
        delayMilliseconds: after(by?.atSeconds),
        waitMilliseconds: after(by?.heardSeconds),
        lookMilliseconds,
        following: by && followingOf(grammarOf(this.parts.book, job.wanted.prompt), by.text),
      });
    }
    return answers;
  }

  private async talk(job: TalkJob): Promise<Answer[]> {
    const sound = await this.parts.sounds.talk(job);
    const answers: Answer[] = [];
    for (const ear of this.earsOf(job.ears))
      for (const prompt of job.prompts) {
        const { told } = await ear.hear(sound, prompt);
        const readings = told.map(({ text, confidence }) =>
          understood(this.parts.book, prompt, text, confidence),
        );
        const of = (verdict: string) =>
          readings.filter((reading) => reading.verdict === verdict).map(({ heard }) => heard);
        answers.push({
          kind: 'talk',
          ear: ear.name,
          at: prompt === 'idle' ? 'idle' : 'question',
          seconds: sound.length / 16000,
          accepted: of('accept'),
          asked: of('confirm'),
        });
      }
    return answers;
  }

  private async memory({ replies, spoken }: MemoryJob): Promise<Answer[]> {
    const ear = await this.parts.forgetful();
    const random = randomFrom(1);
    const clean = padded(await spokenBy(spoken), 0.3, 0.8);
    const hearSome = async (count: number) => {
      for (let at = 0; at < count; at += 1)
        await ear.hear(
          clean.map((x) => x + (random() - 0.5) * 0.003),
          'idle',
        );
    };
    const megabytes = () => process.memoryUsage.rss() / 2 ** 20;
    await hearSome(Math.ceil(replies / 10));
    const before = megabytes();
    await hearSome(replies);
    const after = megabytes();
    return [
      { kind: 'memory', ear: ear.name, replies, grownMegabytes: after - before, megabytes: after },
    ];
  }
}

const sameReply = (a: Reply, b: Reply) =>
  JSON.stringify({ ...a, faults: [...a.faults].sort() }) ===
  JSON.stringify({ ...b, faults: [...b.faults].sort() });

/** The first thing told that is acted on or asked about settles it. */
export function outcomeOf<Words extends Pick<Told, 'text' | 'confidence'>>(
  book: CueBook,
  { wanted }: Pick<ReplyJob, 'wanted'>,
  told: Words[],
): { outcome: Outcome; by: Words | null } {
  for (const by of told) {
    const { verdict, reply } = understood(book, wanted.prompt, by.text, by.confidence);
    if (verdict === 'ignore' || reply === null) continue;
    const right = sameReply(reply, wanted.reply);
    if (verdict === 'accept') return { outcome: right ? 'accepted' : 'wrong', by };
    return { outcome: right ? 'asked' : 'asked-wrong', by };
  }
  return { outcome: 'missed', by: null };
}
