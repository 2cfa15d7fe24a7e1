import { fork, type ChildProcess } from 'node:child_process';
import { loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { loadBook } from '../../../src/cues/fromFolder';
import { humanPhrases } from '../../sounds/human';
import { prepare, speakersHere } from '../../sounds/speakers';
import type { Done } from './figures';
import { APART, type Apart } from './apart';
import { figuresOf } from './figuresOf';
import { goalsOf } from './goals';
import { Kept, shardOf, turnsOf } from './keeping';
import { EARS, type Answer, type EarName, type Job } from './jobs';
import { LONG, replyJobs, SHORT, spokenIn, talkJobs, type Size } from './planning';
import { readable } from './printing';
import { crowdOf, SoundRoom, type Crowd } from './sounding';
import { textFigures } from './texts';
import type { ToWorker } from './worker';

const OF_JOBS = ['text', 'replies', 'urgent', 'corpus', 'talk', 'memory'];
const PARTS = [...OF_JOBS, ...Object.keys(APART)];
export const USAGE =
  'npm run bench hearing -- [--long] [--seed N] [--part PART,...] [--share X] [--workers N] [--ears EAR,...] [--kept FOLDER] [--shard I/N]\n' +
  `  parts: ${PARTS.join(', ')}; ears beside ours: ${EARS.slice(1).join(', ')}\n` +
  '  --share 0.2 hears a fifth of it, with wider intervals\n' +
  '  --kept FOLDER keeps what was heard and goes on from there; --shard 2/5 hears only its fifth;\n' +
  '  without --shard all that lies in FOLDER is counted together, with --workers 0 nothing else';

/** `npm run bench hearing`: prints one JSON object a figure, then the same as tables. */
export async function benchHearing(args: string[]): Promise<void> {
  const { values } = parseArgs({
    args,
    options: {
      long: { type: 'boolean', default: false },
      seed: { type: 'string', default: '1' },
      part: { type: 'string', default: OF_JOBS.join(',') },
      share: { type: 'string', default: '1' },
      workers: { type: 'string', default: '2' },
      ears: { type: 'string', default: EARS.slice(1).join(',') },
      kept: { type: 'string' },
      shard: { type: 'string', default: '1/1' },
    },
  });
  const parts = values.part.split(',');
  const unknown = parts.filter((part) => !PARTS.includes(part));
  const [seed, share, workers] = [values.seed, values.share, values.workers].map(Number);
  if (unknown.length > 0 || !seed || !share || !isCount(workers)) {
    console.error(`Usage: ${USAGE}`);
    process.exitCode = 2;
    return;
  }
  const began = Date.now();
  const book = loadBook(fileURLToPath(new URL('../../../scripts-cues', import.meta.url)), 'en');
  const { here: speakers, missing } = await speakersHere();
  const { phrases: human, missing: noHuman } = humanPhrases();
  const notes = [...missing, ...noHuman];
  const ears: EarName[] = ['ours', ...EARS.slice(1).filter((ear) => values.ears.includes(ear))];
  const cast = { book, speakers, human, ears };
  const size = scaled(values.long ? LONG : SHORT, share);
  const { jobs: talk, leftOut } = talkJobs(cast, size, seed);
  if (leftOut.length > 0)
    notes.push(`human phrases that are replies, left out: ${leftOut.join(' | ')}`);
  const replies = replyJobs(cast, size, seed).filter(({ part }) => parts.includes(part));
  const [shortest] = replies.toSorted((a, b) => a.wanted.text.length - b.wanted.text.length);
  const every: Job[] = [
    ...(parts.includes('memory') && shortest
      ? [{ kind: 'memory' as const, replies: size.memoryReplies, spoken: shortest.spoken }]
      : []),
    ...(parts.includes('talk') ? talk : []),
    ...replies,
  ];
  const jobs = shardOf(every, values.shard);
  const kept =
    values.kept === undefined ? null : new Kept(values.kept, values.shard.replace('/', 'of'));
  const crowd = crowdOf(speakers, human);
  console.error(
    `${jobs.length} jobs, ${speakers.length} synthetic voices, ${human.length} human phrases`,
  );
  const said = [
    ...jobs.filter((job) => kept?.answersTo(job) === undefined).flatMap(spokenIn),
    ...Object.values(crowd.talk).flat(),
    ...crowd.neighbours,
  ];
  if (workers > 0) await prepare(said, workers);
  console.error(`speech is ready after ${Math.round((Date.now() - began) / 1000)} s`);
  const done = jobs.length === 0 ? [] : await heardByWorkers(jobs, { crowd, ears, workers, kept });
  if (done.length < jobs.length) notes.push(`heard ${done.length} of ${jobs.length} jobs`);
  const figures = figuresOf(done);
  const texts = parts.includes('text') ? textFigures(book) : [];
  const apart: Apart[] = [];
  for (const part of parts) {
    const stage = { book, speakers, human, sounds: new SoundRoom(crowd), seed, share };
    const run = APART[part];
    if (run !== undefined) apart.push(await run(stage));
  }
  const goals = [...goalsOf(figures, texts), ...apart.flatMap((each) => each.goals)];
  const all = [...figures, ...texts, ...apart.flatMap((each) => each.figures), ...goals];
  for (const figure of all) console.log(JSON.stringify(figure));
  const run = {
    seed,
    share,
    long: values.long,
    voices: speakers.length,
    minutes: Math.round((Date.now() - began) / 6000) / 10,
    load: loadavg().map((load) => Math.round(load * 10) / 10),
    notes,
  };
  console.log(JSON.stringify(run));
  console.log([...apart.map(({ shown }) => shown), readable(figures, texts, goals)].join('\n'));
  console.log(`\n${notes.map((note) => `Note: ${note}`).join('\n')}`);
  console.log(`Seed ${seed}, ${run.minutes} minutes, load ${run.load.join(' ')}.`);
}

const isCount = (count: number | undefined): count is number => count !== undefined && count >= 0;

const scaled = (size: Size, share: number): Size => {
  const some = (count: number) => Math.max(1, Math.round(count * share));
  return {
    ...size,
    repliesEach: size.repliesEach && {
      tuned: some(size.repliesEach.tuned),
      reported: some(size.repliesEach.reported),
    },
    urgent: some(size.urgent),
    corpus: some(size.corpus),
    talkMinutes: size.talkMinutes * share,
    memoryReplies: some(size.memoryReplies),
  };
};

/** Hands out the jobs in turn and gathers the answers, in the order of the jobs. */
async function heardByWorkers(
  jobs: Job[],
  {
    crowd,
    ears,
    workers,
    kept,
  }: { crowd: Crowd; ears: EarName[]; workers: number; kept: Kept | null },
): Promise<Done> {
  const answers: (Answer[] | undefined)[] = jobs.map((job) => kept?.answersTo(job));
  const todo = turnsOf(jobs).filter((at) => answers[at] === undefined);
  let finished = jobs.length - todo.length;
  if (todo.length === 0) workers = 0;
  const work = () =>
    new Promise<void>((resolve, reject) => {
      const child: ChildProcess = fork(fileURLToPath(new URL('worker.ts', import.meta.url)));
      const send = (message: ToWorker) => child.send(message);
      const hand = () => {
        const index = todo.shift();
        const job = index === undefined ? undefined : jobs[index];
        if (index === undefined || job === undefined) child.disconnect();
        else send({ index, job });
      };
      child.on('message', (message: { index?: number; answers?: Answer[]; problem?: string }) => {
        if (message.problem !== undefined) return reject(new Error(message.problem));
        if (message.index !== undefined) {
          const job = jobs[message.index];
          answers[message.index] = message.answers ?? [];
          if (job) kept?.keep(job, message.answers ?? []);
          finished += 1;
          if (finished % 100 === 0) console.error(`${finished} of ${jobs.length} heard`);
        }
        hand();
      });
      child.on('error', reject);
      child.on('exit', (code) =>
        code === 0 ? resolve() : reject(new Error(`a worker ended with ${code}`)),
      );
      send({ crowd, ears });
    });
  await Promise.all(Array.from({ length: workers }, work));
  return jobs.flatMap((job, at) => {
    const heard = answers[at];
    return heard === undefined ? [] : [{ job, answers: heard }];
  });
}
