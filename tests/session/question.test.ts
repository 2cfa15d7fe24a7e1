import { beforeEach, describe, expect, it } from 'vitest';
import { createActor, type ActorRefFrom } from 'xstate';
import { createVirtualClock, type VirtualClock } from '../../src/cli/virtualClock';
import { bookOf } from '../../src/cli/verb';
import { NO_REPLY, type Reading, type Reply } from '../../src/domain/hearing/reply';
import { questionMachine } from '../../src/session/questionMachine';
import type { Stage } from '../../src/session/stage';

const book = bookOf();
const reading = (reply: Partial<Reply>, verdict: Reading['verdict'] = 'accept'): Reading => ({
  heard: 'words',
  verdict,
  reply: { ...NO_REPLY, ...reply },
  confidence: 1,
  readback: 'clean',
});

let clock: VirtualClock;
let said: { text: string; at: number }[];
let prompts: string[];
let opened: number;
let question: ActorRefFrom<typeof questionMachine>;
const secondsNow = () => clock.now() / 1000;

/** Every text takes two seconds. */
const stage = (): Stage => ({
  book,
  clock,
  secondsOf: () => 2,
  say(text, ended) {
    said.push({ text, at: secondsNow() });
    const timer = clock.setTimeout(ended, 2000);
    return () => clock.clearTimeout(timer);
  },
  prepare: () => undefined,
  beat: () => () => undefined,
  tone: (name) => prompts.push(`tone ${name}`),
  giveWay: () => undefined,
  saidAt: () => null,
  goOn: () => undefined,
  hush: () => undefined,
  attend: (prompt) => prompts.push(prompt),
  show: () => undefined,
  report: () => {
    opened += 1;
  },
});

const ask = (options: { openedAt?: number; kept?: Reading; pain?: boolean } = {}) => {
  question = createActor(questionMachine, {
    clock,
    input: {
      stage: stage(),
      prompt: options.pain ? 'pain/how-much' : 'check/hinge-bar',
      side: null,
      ask: 'How was it?',
      kept: options.kept ?? null,
      openedAtMilliseconds: options.openedAt ?? null,
      mayStayUnanswered: options.pain ?? false,
    },
  });
  question.start();
};
const state = () => JSON.stringify(question.getSnapshot().value);
const hear = (heard: Reading) => question.send({ type: 'HEARD', reading: heard });
const asks = () => said.filter(({ text }) => text === 'How was it?').map(({ at }) => at);

beforeEach(() => {
  clock = createVirtualClock(0);
  said = [];
  prompts = [];
  opened = 0;
});

describe('an answer that may go on', () => {
  const soFar = (heard: Reading) => question.send({ type: 'SO_FAR', reading: heard });
  const tonesHeard = () => prompts.filter((each) => each === 'tone heard').length;

  it('is heard at once, and only the whole of it answers', () => {
    ask();
    clock.advance(3_000);
    soFar(reading({ result: 'lost' }));
    expect(tonesHeard()).toBe(1);
    expect(question.getSnapshot().status).toBe('active');
    hear(reading({ result: 'lost', faults: ['ribs-up'] }));
    expect(question.getSnapshot().output?.reading?.reply?.faults).toEqual(['ribs-up']);
  });

  it('gives no sign where it does not answer, is not sure, or nothing is asked yet', () => {
    ask();
    soFar(reading({ result: 'lost' }));
    clock.advance(3_000);
    soFar(reading({ side: 'left' }));
    soFar(reading({ result: 'lost' }, 'confirm'));
    soFar(reading({}, 'ignore'));
    expect(tonesHeard()).toBe(0);
  });

  it('is heard while something is offered for a yes: a no may go on', () => {
    ask();
    clock.advance(3_000);
    hear(reading({ result: 'lost' }, 'confirm'));
    clock.advance(3_000);
    soFar(reading({ command: 'ready' }));
    expect(tonesHeard()).toBe(0);
    soFar(reading({ command: 'no' }));
    expect(tonesHeard()).toBe(1);
    expect(state()).toContain('confirming');
  });
});

describe('a question that stays in silence', () => {
  it('is asked again 8 and 16 s after it opened, and waits from 30 s, saying so once', () => {
    ask();
    clock.advance(10 * 60_000);
    expect(asks()).toEqual([0, 10, 18]);
    expect(said.filter(({ text }) => text === book.lines['say.waiting'])).toEqual([
      { text: book.lines['say.waiting'], at: 32 },
    ]);
    expect(state()).toBe('"waiting"');
  });

  it('is never answered by silence, and can still be answered after an hour', () => {
    ask();
    clock.advance(3_600_000);
    expect(question.getSnapshot().status).toBe('active');
    hear(reading({ result: 'held' }));
    expect(question.getSnapshot().output?.reading?.reply?.result).toBe('held');
  });

  it('is not asked over somebody who is speaking', () => {
    ask();
    clock.advance(9_900);
    question.send({ type: 'ONSET' });
    clock.advance(2_000);
    expect(asks()).toEqual([0]);
    question.send({ type: 'NOTHING' });
    clock.advance(1);
    expect(asks()).toHaveLength(2);
  });

  it('ends unanswered after 30 s where it is about pain', () => {
    ask({ pain: true });
    clock.advance(33_000);
    expect(question.getSnapshot().status).toBe('done');
    expect(question.getSnapshot().output).toEqual({ reading: null });
  });
});

describe('a question that is opened again after a reload', () => {
  it('counts its deadlines from when it first opened', () => {
    clock.advance(100_000);
    ask({ openedAt: 90_000 });
    clock.advance(60_000);
    // 8 s had passed: it asks at once, then at 16 s, then it waits from 30 s.
    expect(asks()).toEqual([100, 106]);
    expect(said.at(-1)?.at).toBe(120);
  });

  it('asks once and waits where all deadlines have passed', () => {
    clock.advance(500_000);
    ask({ openedAt: 100_000 });
    clock.advance(60_000);
    expect(asks()).toEqual([500]);
    expect(state()).toBe('"waiting"');
  });
});

describe('an unsure reply', () => {
  beforeEach(() => {
    ask();
    clock.advance(2_000);
    hear(reading({ result: 'lost', faults: ['back-rounded'] }, 'confirm'));
    clock.advance(2_000);
  });

  it('is offered, and counts after a yes', () => {
    expect(said.at(-1)?.text).toContain('Clean');
    hear(reading({ command: 'yes' }));
    expect(question.getSnapshot().output?.reading?.reply?.faults).toEqual(['back-rounded']);
  });

  it('is dropped after a no, and the question asked again', () => {
    hear(reading({ command: 'no' }));
    expect(state()).toBe('"asking"');
    clock.advance(2_000);
    hear(reading({ result: 'held' }));
    expect(question.getSnapshot().output?.reading?.reply?.result).toBe('held');
  });

  it('is replaced by another answer, which is offered in its turn', () => {
    hear({ ...reading({ result: 'short' }, 'confirm'), readback: 'limited' });
    expect(said.at(-1)?.text).toContain('Limited');
    hear(reading({ command: 'yes' }));
    expect(question.getSnapshot().output?.reading?.reply?.result).toBe('short');
  });

  it('is never taken for a yes by silence: the question waits', () => {
    clock.advance(600_000);
    expect(question.getSnapshot().status).toBe('active');
    expect(state()).toBe('"waiting"');
    hear(reading({ command: 'yes' }));
    expect(question.getSnapshot().status).toBe('active');
  });
});

describe('an early reply', () => {
  it('is offered instead of asking', () => {
    ask({ kept: reading({ result: 'held' }, 'confirm') });
    expect(asks()).toEqual([]);
    expect(said.at(-1)?.text).toContain('Clean');
    hear(reading({ command: 'yes' }));
    expect(question.getSnapshot().output?.reading?.reply?.result).toBe('held');
  });
});

describe('what is no answer', () => {
  it('is met with the tone of not understood, and the question stays', () => {
    ask();
    clock.advance(2_000);
    hear(reading({ side: 'left' }));
    expect(prompts.at(-1)).toBe('tone not-understood');
    expect(state()).toBe('"listening"');
    expect(opened).toBe(1);
  });

  it('bare "back" is asked about', () => {
    ask();
    clock.advance(2_000);
    hear(reading({ command: 'back' }, 'confirm'));
    expect(said.at(-1)?.text).toBe(book.lines['say.which']);
  });

  it('"repeat" asks again at once', () => {
    ask();
    clock.advance(3_000);
    question.send({ type: 'REPEAT' });
    expect(asks()).toEqual([0, 3]);
  });
});
