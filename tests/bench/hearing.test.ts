import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { SHIPPED } from '../sounds/speakers';
import { rateAtMost, type Done, type Figure } from './hearing/figures';
import { figuresOf } from './hearing/figuresOf';
import { goalsOf } from './hearing/goals';
import { Hearers } from './hearing/hearing';
import { deaf, type BenchEar } from './hearing/hearingEar';
import type { Condition, EarName, Job, ReplyJob } from './hearing/jobs';
import { oursFor } from './hearing/ours';
import { talkJobs } from './hearing/planning';
import { readable } from './hearing/printing';
import { everyReply, sampleReplies, understood, urgentReplies } from './hearing/replies';
import { crowdOf, SoundRoom } from './hearing/sounding';
import { textFigures } from './hearing/texts';
import { randomFrom } from '../ear/noises';

const book = loadBook(fileURLToPath(new URL('../../scripts-cues', import.meta.url)), 'en');

/** A few replies by the voice that is always there, one of them in noise, and some of its cues. */
function tinyJobs(ears: EarName[]): Job[] {
  const quiet: Condition = { name: 'clean', noise: null, decibels: null, reverb: false };
  const loud: Condition = { name: 'pink 10 dB', noise: 'pink', decibels: 10, reverb: false };
  const reply = (text: string, condition = quiet): ReplyJob => {
    const prompt = 'check/hinge-unloaded';
    const wanted = { prompt, text, reply: understood(book, prompt, text).reply! };
    const spoken = { speaker: SHIPPED, text, rate: 1.2 };
    return {
      kind: 'reply',
      part: 'replies',
      half: 'reported',
      condition,
      wanted,
      isInGrammar: true,
      spoken,
      seed: 3,
      ears,
    };
  };
  const size = {
    repliesEach: null,
    urgent: 0,
    corpus: 0,
    talkMinutes: 0.2,
    othersEvery: { replies: 1, talk: 1 },
    memoryReplies: 0,
  };
  const cast = { book, speakers: [SHIPPED], human: [], ears };
  const [talk] = talkJobs(cast, size, 1).jobs.filter(({ source }) => source === 'own cues');
  return [
    reply('knees came forward'),
    reply('clean set'),
    { ...reply('stop', loud), part: 'urgent' },
    { ...talk!, prompts: [talk!.prompts[0]!, 'idle'] },
  ];
}

/** Nothing is spoken twice. */
const sounds = new SoundRoom(crowdOf([SHIPPED], []));

async function heardBy(ear: BenchEar): Promise<{ figures: Figure[]; done: Done }> {
  const hearers = new Hearers({
    book,
    ears: new Map([[ear.name, ear]]),
    sounds,
    forgetful: () => Promise.resolve(ear),
  });
  const done: Done = [];
  for (const job of tinyJobs([ear.name])) done.push({ job, answers: await hearers.hear(job) });
  return { figures: figuresOf(done), done };
}

describe('the bench of hearing', () => {
  let ours: Awaited<ReturnType<typeof heardBy>>;
  let none: Awaited<ReturnType<typeof heardBy>>;
  let texts: ReturnType<typeof textFigures>;
  beforeAll(async () => {
    texts = textFigures(book);
    ours = await heardBy(await oursFor(book));
    none = await heardBy(deaf);
  }, 180_000);
  const goal = (figures: Figure[], begins: string) =>
    goalsOf(figures, texts).find((each) => each.goal.startsWith(begins));

  test('hears the replies, and counts every one of them once', () => {
    const clean = ours.figures.find(
      (each) => each.figure === 'replies' && each.condition === 'clean',
    );
    expect(clean).toMatchObject({ n: 2, right: { count: 2, percent: 100 } });
    for (const figure of [...ours.figures, ...none.figures]) {
      if (figure.figure !== 'replies') continue;
      const { right, askedWrong, wrong, missed } = figure;
      expect(right.count + askedWrong.count + wrong.count + missed.count).toBe(figure.n);
    }
  });

  test('hears other speech for as long as it lasts, at a question and at idle', () => {
    const talk = ours.figures.filter(
      (each) => each.figure === 'other speech' && each.source === 'all talk',
    );
    expect(talk.map((each) => each.figure === 'other speech' && each.at)).toEqual([
      'question',
      'idle',
    ]);
    const heard = ours.done.flatMap(({ answers }) =>
      answers.flatMap((answer) => (answer.kind === 'talk' ? [answer.seconds] : [])),
    );
    expect(heard).toHaveLength(2);
    expect(heard[0]).toBeGreaterThan(4);
    for (const each of talk) {
      if (each.figure !== 'other speech') continue;
      // Told in thousandths.
      expect(each.hours).toBeCloseTo((heard[0] ?? 0) / 3600, 3);
      expect(each.acceptedAnHourAtMost).toBeGreaterThan(each.acceptedAnHour);
    }
  });

  test('tells how long a look took and when the reply came', () => {
    const what = ours.figures.flatMap((each) => (each.figure === 'milliseconds' ? each.what : []));
    expect(what).toEqual(expect.arrayContaining(['a look', 'end of speech to a single answer']));
  });

  test('shows a deaf ear as one that misses every goal of hearing', () => {
    expect(goal(none.figures, 'right, clean')).toMatchObject({ measured: 0, met: false, by: 99.5 });
    expect(goal(none.figures, 'stop by itself')).toMatchObject({ measured: 0, met: false });
    expect(goal(ours.figures, 'right, clean')).toMatchObject({ measured: 100, met: true });
    // Two replies prove nothing.
    expect(goal(ours.figures, 'right, clean')?.proven).toBe(false);
  });

  test('shows an ear that hears a reply in everything as one that acts on talk', async () => {
    const eager: BenchEar = {
      name: 'ours',
      hear: async () => ({
        told: [{ text: 'next', confidence: 1, atSeconds: null, heardSeconds: null }],
        lookMilliseconds: [],
      }),
    };
    const { figures } = await heardBy(eager);
    expect(goal(figures, 'false accepts at idle')).toMatchObject({ met: false });
    expect(goal(figures, 'wrong and accepted')).toMatchObject({ measured: 100, met: false });
  });

  test('prints every goal, and says of each that is missed by how much', () => {
    const goals = goalsOf(none.figures, texts);
    const shown = readable(none.figures, texts, goals);
    for (const each of goals) expect(shown).toContain(each.goal);
    expect(shown).toContain('not met by 99.5 %');
  });
});

describe('what is said to it', () => {
  test('every reply is one that the prompt understands', () => {
    const random = randomFrom(5);
    const all = [...sampleReplies(book, 12, random, 70), ...urgentReplies(book, 30, random)];
    for (const { prompt, text, reply } of all)
      expect(understood(book, prompt, text).reply, `${prompt}: ${text}`).toEqual(reply);
  });

  test('the long run says every phrase of the vocabulary', () => {
    const said = everyReply(book, randomFrom(1)).map(({ text }) => text);
    expect(said.length).toBeGreaterThan(3000);
    for (const text of ['pass', 'gave way', 'shins not vertical'])
      expect(
        said.some((each) => each.includes(text)),
        text,
      ).toBe(true);
  });
});

test('the bound of no false accept in an hour is 3 (the rule of three: Hanley 1983)', () => {
  expect(rateAtMost(0, 1)).toBeCloseTo(3, 1);
  expect(rateAtMost(0, 0.5)).toBeCloseTo(6, 1);
  // Garwood 1936, one-sided 95 %: 4 seen, below 9.15.
  expect(rateAtMost(4, 1)).toBeCloseTo(9.15, 2);
});
