import { describe, expect, it } from 'vitest';
import { secondsOf } from '../../src/cli/durations';
import { bookOf } from '../../src/cli/verb';
import { groupSecondsIn, plannedWarmUp, rehearseWarmUp } from '../../src/cli/warmUps';

const book = bookOf();
const warmUp = book.warmUps['before-the-bar']!;
const plan = plannedWarmUp(book, warmUp);
const line = (key: string) => book.lines[key]!;
const secondOf = (turn: number) => plan.turns[turn]!.workAtSeconds + 5;

/** Runs it while its leader says these at their seconds; `then` answers what is asked. */
function led(
  said: [number, string][],
  { then = [] as string[], endSeconds = undefined as number | undefined, of = warmUp } = {},
) {
  const spoken = (text: string, at: number) => ({ line: at + 1, text, audio: null });
  const run = rehearseWarmUp(
    book,
    of,
    {
      secondsOf,
      replies: {
        inTurn: then.map(spoken),
        timed: said.map(([atSeconds, text], at) => ({ ...spoken(text, at), atSeconds })),
      },
    },
    { endSeconds },
  );
  const cues = run.timeline.flatMap((event) =>
    event.type === 'cue' ? [{ at: event.atSeconds, text: event.text }] : [],
  );
  /** What is said after that second, without counts. */
  const after = (seconds: number) =>
    cues.filter(({ at, text }) => at > seconds && /\s|\./.test(text)).map(({ text }) => text);
  const turns = run.timeline.flatMap((event) => (event.type === 'step' ? [event.set] : []));
  return { ...run, cues, after, turns };
}

/** Nothing is said over anything else. */
function expectOneAtATime({ said }: ReturnType<typeof led>) {
  const inOrder = said.toSorted((one, other) => one.fromSeconds - other.fromSeconds);
  inOrder.forEach((piece, at) => {
    const before = inOrder[at - 1];
    if (before && before.toSeconds > piece.fromSeconds + 0.001)
      throw new Error(`"${before.text}" runs into "${piece.text}" at ${piece.fromSeconds}`);
  });
}

describe('a group is led by one speaker', () => {
  it('and nobody says a word: everything comes at the second that the plan has for it', () => {
    const run = led([]);
    expect(run.reason).toBe('completed');
    expect(run.tookSeconds).toBeCloseTo(plan.totalSeconds, 3);
    expect(run.turns).toEqual(plan.turns.map((_, at) => at + 1));
    for (const heard of plan.heard) {
      if (heard.do !== 'cue') continue;
      const cue = run.cues.find(
        ({ text, at }) => text === heard.text && Math.abs(at - heard.atSeconds) < 0.3,
      );
      expect(cue, `"${heard.text}" at ${heard.atSeconds} s`).toBeDefined();
    }
    expectOneAtATime(run);
  });

  it('"hold on" silences it, "go on" takes up the same turn, told anew', () => {
    const at = secondOf(1);
    const run = led([
      [at, 'hold on'],
      [at + 40, 'go on'],
    ]);
    const silent = run.cues.filter((cue) => cue.at > at + 1 && cue.at < at + 40);
    expect(silent).toEqual([]);
    expect(run.after(at + 40)[0]).toBe('Next, the wall hinge.');
    expect(run.turns.slice(0, 4)).toEqual([1, 2, 2, 3]);
    expect(run.reason).toBe('completed');
  });

  it.each([
    ['skip', [1, 2, 3, 4], 'Next, the post squat.'],
    ['one more', [1, 2, 2, 3], 'Next, the wall hinge.'],
    ['go back', [1, 2, 1, 2], 'Next, long breaths out.'],
  ])('"%s" in the second turn', (text, turns, next) => {
    const run = led([[secondOf(1), text]]);
    expect(run.turns.slice(0, 4)).toEqual(turns);
    expect(run.after(secondOf(1) + 0.3)[0]).toBe(next);
    expectOneAtATime(run);
  });

  it('"skip" in the last turn comes to the end', () => {
    const run = led([[secondOf(plan.turns.length - 1), 'skip']]);
    expect(run.after(secondOf(plan.turns.length - 1))).toEqual([line('group.over')]);
    expect(run.reason).toBe('completed');
  });

  it.each([
    ['yes', 'stopped'],
    ['no', 'completed'],
  ])('"stop" halts it and asks; "%s" then', (answer, reason) => {
    const at = secondOf(2);
    const run = led(
      [
        [at, 'stop'],
        [at + 60, 'go on'],
      ],
      { then: [answer] },
    );
    expect(run.timeline).toContainEqual(expect.objectContaining({ type: 'tone', name: 'halted' }));
    expect(run.after(at)[0]).toBe(line('confirm.end-warm-up'));
    expect(run.reason).toBe(reason);
    const silent = run.after(at).filter((text) => text.startsWith('Next'));
    if (answer === 'yes') expect(silent).toEqual([]);
    else expect(silent[0]).toBe('Next, the post squat.');
  });

  it('silence after "stop" never goes on by itself', () => {
    const at = secondOf(2);
    const run = led([[at, 'stop']]);
    expect(run.reason).toBe('replies-ended');
    expect(run.after(at).filter((text) => text.startsWith('Next'))).toEqual([]);
  });

  it('"my back hurts" halts it, and it rests until it is told to go on', () => {
    const at = secondOf(3);
    const run = led([[at, 'my back hurts']]);
    expect(run.after(at)).toEqual([line('group.pain')]);
    expect(run.reason).toBe('replies-ended');
  });

  it('a warning sign ends it: get help', () => {
    const at = secondOf(3);
    const run = led([[at, 'he has chest pain']]);
    expect(run.after(at)).toEqual([line('group.sign')]);
    expect(run.reason).toBe('red-flag');
  });

  it('ends when it was promised to, whatever was held, skipped or done once more', () => {
    const endSeconds = Math.round(plan.totalSeconds);
    const at = secondOf(1);
    for (const said of [
      [
        [at, 'hold on'],
        [at + 70, 'go on'],
      ],
      [[at, 'skip']],
      [[at, 'one more']],
    ] as [number, string][][]) {
      const run = led(said, { endSeconds });
      expect(run.tookSeconds).toBeCloseTo(endSeconds, 2);
      expect(run.reason).toBe('completed');
      expectOneAtATime(run);
    }
  });

  it('a promise that cannot be kept is said to be late, and everything is done as written', () => {
    const run = led([], { endSeconds: 20 });
    expect(run.cues[0]?.text).toBe(line('group.late'));
    expect(run.turns).toHaveLength(plan.turns.length);
  });

  it('"slower" speaks slower, and nothing runs into anything', () => {
    const at = secondOf(1);
    const run = led([
      [at, 'slower'],
      [at + 60, 'slower'],
    ]);
    expectOneAtATime(run);
    const next = run.said.find(
      ({ text, fromSeconds }) => text === 'Next, the wall slide.' && fromSeconds > at,
    );
    expect((next?.toSeconds ?? 0) - (next?.fromSeconds ?? 0)).toBeGreaterThan(
      groupSecondsIn('en')('Next, the wall slide.') * 1.1,
    );
  });

  it.each(['louder', 'quieter', 'slower', 'ready', 'let us go', 'nice work'])(
    'held, or resting after pain, it stays so at "%s"',
    (text) => {
      const at = secondOf(1);
      for (const rests of ['hold on', 'my back hurts']) {
        const run = led([
          [at, rests],
          [at + 20, text],
        ]);
        expect(run.reason).toBe('replies-ended');
        expect(run.after(at + 10)).toEqual([]);
      }
    },
  );

  it.each(['louder', 'ready', 'and go', 'go on', 'done'])(
    '"%s" during work changes nothing of the time',
    (text) => {
      const run = led([[secondOf(1), text]]);
      expect(run.tookSeconds).toBeCloseTo(plan.totalSeconds, 3);
      expect(run.turns).toHaveLength(plan.turns.length);
    },
  );

  it('after pain, "go on" takes up the turn, and what was said of the pain is not said again', () => {
    const at = secondOf(3);
    const run = led([
      [at, 'my back hurts'],
      [at + 1.5, 'go on'],
    ]);
    const said = run.after(at);
    expect(said.filter((text) => text === line('group.pain')).length).toBeLessThanOrEqual(1);
    expect(said).toContain('Next, the wall slide.');
    expect(run.reason).toBe('completed');
  });

  it('a drill whose turn was skipped before its work is shown and cautioned when it comes again', () => {
    const change = plan.turns[1]!.atSeconds + 0.9;
    const run = led([[change, 'skip']]);
    const said = run.after(change);
    expect(said[0]).toBe('Next, the post squat.');
    const again = said.indexOf('Next, the wall hinge.');
    expect(said.slice(again, again + 3)).toEqual([
      'Next, the wall hinge.',
      expect.stringMatching(/from the wall/) as string,
      book.drills['wall-hinge']!.caution,
    ]);
  });

  it('"hold on" and "go on" in the closing words come to the end, and nothing is done again', () => {
    const end = plan.turns.at(-1)!.endSeconds;
    const run = led([
      [end + 0.5, 'hold on'],
      [end + 10, 'go on'],
    ]);
    expect(run.after(end + 5)).toEqual([line('group.over')]);
    expect(run.turns).toHaveLength(plan.turns.length);
  });

  it('"stop" cuts even "get help", and it is over', () => {
    const at = secondOf(3);
    const run = led([
      [at, 'he has chest pain'],
      [at + 2, 'stop'],
    ]);
    expect(run.reason).toBe('red-flag');
    expect(run.tookSeconds).toBeLessThan(at + 3);
  });

  it('held until the promised end has all but passed, it says so and is as short as it can be', () => {
    const at = secondOf(1);
    const endSeconds = Math.round(plan.totalSeconds);
    const run = led(
      [
        [at, 'hold on'],
        [endSeconds - 20, 'go on'],
      ],
      { endSeconds },
    );
    expect(run.after(endSeconds - 20)[0]).toBe(line('group.late'));
    expect(run.turns.at(-1)).toBe(plan.turns.length);
    const whole = plan.totalSeconds - plan.turns[1]!.atSeconds;
    expect(run.tookSeconds - (endSeconds - 20)).toBeLessThan(whole - 60);
  });

  it('held while it welcomes, it welcomes anew', () => {
    const run = led([
      [2, 'hold on'],
      [9, 'go on'],
    ]);
    expect(run.after(9)[0]).toMatch(/^Welcome/);
    expect(run.turns).toHaveLength(plan.turns.length);
  });

  it('talk to the group is no command', () => {
    const run = led([
      [secondOf(1), 'keep your hips back everybody'],
      [secondOf(2), 'nice work, good'],
    ]);
    expect(run.tookSeconds).toBeCloseTo(plan.totalSeconds, 3);
  });
});

describe('at stations', () => {
  const four = book.warmUps['four-stations']!;
  const whole = plannedWarmUp(book, four);
  const inWork = (turn: number) => whole.turns[turn]!.workAtSeconds + 5;

  it.each([
    ['one more', 'group.stay'],
    ['go back', 'group.move-back'],
    ['skip', 'group.move-on'],
  ])('"%s" says where everybody goes', (text, key) => {
    const run = led([[inWork(2), text]], { of: four });
    expect(run.after(inWork(2) + 0.3)[0]).toBe(line(key));
  });

  it('held and gone on with, nobody is sent on', () => {
    const run = led(
      [
        [inWork(2), 'hold on'],
        [inWork(2) + 30, 'go on'],
      ],
      { of: four },
    );
    expect(run.after(inWork(2) + 20)[0]).toBe(line('group.stay'));
    expect(run.after(inWork(2) + 20).find((text) => text.startsWith('Move on'))).toBeDefined();
  });

  it('skipped while they are shown, they are shown again before the next turn', () => {
    const run = led([[whole.turns[0]!.atSeconds + 12, 'skip']], { of: four });
    const said = run.after(whole.turns[0]!.atSeconds + 12);
    for (const { drill } of four.parts.flatMap((part) =>
      part.arrangement === 'stations' ? part.stations : [],
    ))
      expect(said).toContain(book.drills[drill]!.caution);
    expectOneAtATime(run);
  });
});
