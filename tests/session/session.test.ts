import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/domain/log';
import { replyOfKey } from '../../src/ear/keys';
import { TONE_SECONDS } from '../../src/ports';
import { book, openBench, STARTED, type Bench } from './bench';

const CHECK = 'check/hinge-unloaded';

/** At the first question of the hinge. */
const atCheck = (options: Parameters<typeof openBench>[0] = {}): Bench => {
  const bench = openBench(options);
  bench.untilAsked(CHECK);
  return bench;
};
/** In the middle of the first set, after knees forward at the check. */
const inSet = (options: Parameters<typeof openBench>[0] = {}): Bench => {
  const bench = atCheck(options);
  bench.hear('knees came forward');
  bench.clock.runUntil(() => bench.of('beat').length > 4, 600_000);
  return bench;
};

describe('a spoken result', () => {
  it('is stored, acknowledged by tone, told with its reason, and leads to the next drill', () => {
    const bench = atCheck();
    bench.hear('knees came forward');
    expect(bench.logged('finding')).toMatchObject([
      { result: 'lost', faults: ['knees-forward'], source: { text: 'knees came forward' } },
    ]);
    expect(bench.tones.at(-1)).toBe('accepted');
    bench.untilAsked('set/bell-hinge');
    const decision = bench.logged('decision').at(-1);
    expect(decision).toMatchObject({ to: 'bell-hinge', rule: '11.1' });
    expect(bench.cues()).toContain(decision?.because);
    expect(bench.of('step').at(-1)).toMatchObject({ prompt: 'set/bell-hinge', rung: 2, set: 1 });
  });

  it('given by hand takes the same way', () => {
    const bench = atCheck();
    bench.hand({ result: 'lost', faults: ['knees-forward'] });
    expect(bench.logged('finding')).toMatchObject([
      { faults: ['knees-forward'], source: { by: 'hand' } },
    ]);
  });

  it('that contradicts itself is asked about, and nothing is stored before the yes', () => {
    const bench = atCheck();
    bench.hear('pass but the knees came forward');
    expect(bench.logged('finding')).toEqual([]);
    bench.untilAsked('confirm');
    bench.hear('yes');
    expect(bench.logged('finding')).toHaveLength(1);
  });

  it.each([
    'good',
    'beautiful, nice work',
    "don't let the knees come forward",
    'keep your knees back',
    'did you pass your driving test',
  ])('is never made of "%s"', (talk) => {
    const bench = atCheck();
    bench.hear(talk);
    expect(bench.logged('finding')).toEqual([]);
    expect(bench.of('listen').at(-1)?.prompt).toBe(CHECK);
  });

  it('is never made of silence: the question waits, open, and says so once', () => {
    const bench = atCheck();
    bench.seconds(3600);
    expect(bench.logged('finding')).toEqual([]);
    expect(bench.cues().filter((text) => text === book.lines['say.waiting'])).toHaveLength(1);
    bench.hear('clean');
    expect(bench.logged('finding')).toMatchObject([{ result: 'held' }]);
  });

  it('spoken during the work is kept and offered when the question opens', () => {
    const bench = inSet();
    bench.hear('knees forward');
    expect(bench.logged('finding')).toHaveLength(1);
    bench.untilAsked('confirm');
    expect(bench.cues().at(-1)).toContain('Knees forward');
    bench.hear('yes');
    expect(bench.logged('finding')).toHaveLength(2);
  });
});

describe('the record', () => {
  it('is durable before the tone that says so', () => {
    const tonesWhenStored: string[][] = [];
    const bench: Bench = atCheck({
      store: (entry) => {
        if (entry.type === 'finding') tonesWhenStored.push([...bench.tones]);
        return null;
      },
    });
    bench.hear('clean');
    expect(tonesWhenStored).toHaveLength(1);
    expect(tonesWhenStored[0]).not.toContain('accepted');
    expect(bench.tones).toContain('accepted');
  });

  it('that never answers is not acknowledged as stored', () => {
    const bench = atCheck({ store: (entry) => (entry.type === 'finding' ? 'silent' : null) });
    bench.hear('clean');
    expect(bench.tones).not.toContain('accepted');
    bench.seconds(4);
    expect(bench.tones).toContain('not-stored');
    expect(bench.tones).not.toContain('accepted');
  });

  it('that is full says so, loses nothing in memory, and the session goes on', () => {
    const full = { reason: 'full', say: 'Make room.' } as const;
    const bench = atCheck({ store: (entry) => (entry.type === 'finding' ? full : null) });
    bench.hear('knees forward');
    expect(bench.tones.at(-1)).toBe('not-stored');
    expect(bench.of('trouble')).toMatchObject([{ what: 'full', say: 'Make room.' }]);
    bench.untilAsked('set/bell-hinge');
    expect(bench.of('step').at(-1)?.prompt).toBe('set/bell-hinge');
  });

  it('keeps names and times: ids count up and time never falls', () => {
    const { entries } = inSet();
    expect(entries.map(({ id }) => id)).toEqual(entries.map((_, at) => `test:bench:${at + 1}`));
    const times = entries.map(({ atSeconds }) => atSeconds);
    expect(times).toEqual([...times].sort((one, other) => one - other));
  });

  it('holds no talk that was not meant for it', () => {
    const bench = atCheck();
    bench.hear('he bounced back from that cold');
    bench.hear('clean');
    expect(JSON.stringify(bench.entries)).not.toContain('cold');
  });
});

describe('a session that was cut off', () => {
  const after = (entries: Entry[], seconds: number) =>
    openBench({ log: entries, atMilliseconds: STARTED + seconds * 1000 });

  it('comes back to the same question', () => {
    const before = atCheck();
    before.hear('knees forward');
    before.untilAsked('set/bell-hinge');
    const bench = after(before.entries, 300);
    bench.untilAsked();
    expect(bench.prompt()).toBe('set/bell-hinge');
    // The set was done before: nobody is sent through it again.
    expect(bench.of('beat')).toEqual([]);
    bench.hear('clean');
    expect(bench.logged('finding').at(-1)).toMatchObject({ drill: 'bell-hinge', result: 'held' });
  });

  it('a key before the first word means what it means in work, whatever was open before', () => {
    const bench = openBench({ attended: 'confirm', store: () => 'silent' });
    expect(bench.actor.getSnapshot().matches('opening')).toBe(true);
    expect(replyOfKey(bench.prompt(), 'n')?.command).toBe('next');
    bench.hand(replyOfKey(bench.prompt(), 'n')!);
    bench.untilAsked();
    expect(bench.prompt()).toBe('check/hinge-bar');
  });

  it('counts the question from its first opening', () => {
    const before = atCheck();
    const bench = after(before.entries, 300);
    bench.seconds(30);
    // All deadlines have passed: it is asked once more and then waits.
    expect(bench.of('listen')).toHaveLength(1);
    expect(bench.of('phase').at(-1)?.phase).toBe('waiting');
  });

  it('goes on in the middle of a set, from its beginning', () => {
    const before = inSet();
    const bench = after(before.entries, 300);
    bench.untilAsked();
    expect(bench.of('beat').length).toBeGreaterThan(0);
    expect(bench.prompt()).toBe('set/bell-hinge');
  });

  it('after hours is not over its time: being away is a pause', () => {
    const before = inSet();
    before.untilAsked();
    const bench = after(before.entries, 3 * 3600);
    bench.untilAsked();
    bench.hear('clean');
    bench.untilAsked();
    expect(bench.prompt()).toBe('set/bell-hinge');
    expect(bench.of('step').at(-1)).toMatchObject({ set: 2 });
  });

  it('stays paused, and stays halted', () => {
    const paused = inSet();
    paused.hear('hold on');
    const bench = after(paused.entries, 300);
    bench.seconds(60);
    expect(bench.of('phase').at(-1)?.phase).toBe('paused');
    const halted = inSet();
    halted.hear('stop');
    const again = after(halted.entries, 300);
    again.untilAsked();
    expect(again.prompt()).toBe('confirm');
  });
});

describe('"stop"', () => {
  it('silences at once, keeps the place, and goes on after a no', () => {
    const bench = inSet();
    bench.hear('stop');
    expect(bench.tones.at(-1)).toBe('halted');
    expect(bench.sounding()).toBeNull();
    bench.seconds(TONE_SECONDS.halted);
    expect(bench.sounding()).toBe(book.lines['confirm.end']);
    bench.untilAsked('confirm');
    const beats = bench.of('beat').at(-1)?.count ?? 0;
    bench.hear('no');
    bench.clock.runUntil(() => bench.of('beat').length > 5, 600_000);
    expect(bench.of('beat').at(-1)?.count).toBe(beats);
    expect(bench.isOver()).toBe(false);
  });

  it('while a question is being asked keeps the question: the work was done', () => {
    const bench = openBench();
    bench.clock.runUntil(() => bench.of('phase').at(-1)?.phase === 'repeating', 600_000);
    bench.hear('done');
    expect(bench.of('phase').at(-1)?.phase).toBe('asking');
    const ask = bench.sounding();
    bench.hear('stop');
    bench.untilAsked('confirm');
    const cues = bench.of('cue').length;
    bench.hear('no');
    bench.untilAsked();
    const said = bench
      .of('cue')
      .slice(cues)
      .map(({ text }) => text);
    expect(said).toEqual([book.lines['because.going-on'], ask]);
  });

  it('ends only after a yes, with the outcomes', () => {
    const bench = inSet();
    bench.hear('stop');
    bench.untilAsked('confirm');
    bench.seconds(3600);
    expect(bench.isOver()).toBe(false);
    bench.hear('yes');
    bench.seconds(60);
    expect(bench.of('end')).toMatchObject([{ reason: 'stopped' }]);
    expect(bench.logged('ended')).toMatchObject([{ reason: 'stopped' }]);
  });

  it('is not "don\'t stop"', () => {
    const bench = inSet();
    bench.hear("don't stop");
    expect(bench.logged('halted')).toEqual([]);
  });
});

describe('pain', () => {
  it('pauses the set at once and asks how much, then what kind', () => {
    const bench = inSet();
    bench.hear('pain');
    bench.seconds(TONE_SECONDS.halted);
    expect(bench.sounding()).toBe(book.lines['ask.pain-number-loaded']);
    bench.untilAsked('pain/how-much');
    bench.hear('four');
    bench.untilAsked('pain/kind');
    bench.hear('one I know');
    bench.untilAsked();
    expect(bench.prompt()).toBe('set/bench-hinge');
  });

  it('without a number in the end is taken as the worst: the area is referred', () => {
    const bench = inSet();
    bench.hear('that hurts');
    bench.seconds(120);
    expect(bench.of('outcome')).toMatchObject([{ area: 'hinge', outcome: 'referred' }]);
  });

  it('is not given up on during a pause', () => {
    const bench = inSet();
    bench.hear('pain');
    bench.untilAsked('pain/how-much');
    bench.hear('hold on');
    bench.seconds(600);
    expect(bench.logged('pain-number')).toEqual([]);
    bench.hear('resume');
    bench.untilAsked('pain/how-much');
    bench.hear('two');
    expect(bench.logged('pain-number')).toMatchObject([{ pain: 2 }]);
  });

  it('spoken of during a pause is asked about at once', () => {
    const bench = inSet();
    bench.hear('pause');
    bench.seconds(30);
    bench.hear('pain');
    bench.seconds(TONE_SECONDS.halted);
    expect(bench.sounding()).toBe(book.lines['ask.pain-number-loaded']);
  });
});

describe('a red flag', () => {
  it('ends the session without asking, whatever is going on', () => {
    const bench = inSet();
    bench.hear('I feel dizzy');
    bench.seconds(60);
    expect(bench.of('end')).toMatchObject([{ reason: 'red-flag' }]);
    expect(bench.logged('red-flag')).toMatchObject([{ flag: 'faint-dizzy' }]);
    expect(bench.cues()).toContain(book.lines['say.red-flag']);
  });
});

describe('the coach', () => {
  it('may overrule, and the record says who decided', () => {
    const bench = inSet();
    bench.hear('skip');
    expect(bench.logged('decision').at(-1)).toMatchObject({ by: 'coach' });
    expect(bench.logged('overrule')).toMatchObject([{ command: 'skip' }]);
  });

  it('takes back the last result: the question is asked again, without the work', () => {
    const bench = inSet();
    bench.hear('undo');
    const beats = bench.of('beat').length;
    bench.untilAsked();
    expect(bench.prompt()).toBe(CHECK);
    expect(bench.of('beat')).toHaveLength(beats);
    bench.hear('clean');
    expect(bench.logged('finding').at(-1)).toMatchObject({
      check: 'hinge-unloaded',
      result: 'held',
    });
  });

  it('pauses in the middle of a set and goes on in it', () => {
    const bench = inSet();
    const beats = bench.of('beat').length;
    bench.hear('hold on');
    bench.seconds(600);
    expect(bench.of('beat')).toHaveLength(beats);
    bench.hear('resume');
    bench.untilAsked();
    expect(bench.prompt()).toBe('set/bell-hinge');
  });

  it('pauses an open question and gets it back, asked anew', () => {
    const bench = atCheck();
    bench.hear('pause');
    bench.seconds(600);
    bench.hear('resume');
    bench.untilAsked();
    expect(bench.prompt()).toBe(CHECK);
    expect(bench.cues().at(-1)).toBe(book.checks['hinge-unloaded']?.ask);
  });

  it('asks for help and is back at the question', () => {
    const bench = atCheck();
    bench.hear('help');
    bench.seconds(TONE_SECONDS.halted);
    expect(bench.sounding()).toBe(book.lines['say.help']);
    bench.untilAsked();
    expect(bench.prompt()).toBe(CHECK);
  });

  it('makes the voice louder and hears the line again', () => {
    const bench = openBench();
    bench.seconds(4);
    const line = bench.sounding();
    bench.hear('louder');
    expect(bench.adjusted).toEqual(['louder']);
    expect(bench.cues().at(-1)).toBe(line);
  });
});

describe('when something fails', () => {
  it('without any voice the captions keep the pace, and it is said', () => {
    const bench = openBench({ voice: 'broken' });
    bench.untilAsked(CHECK);
    const speaking = openBench();
    speaking.untilAsked(CHECK);
    expect(bench.of('trouble')[0]).toMatchObject({ what: 'no-voice' });
    expect(bench.clock.now()).toBeCloseTo(speaking.clock.now(), -2);
  });

  it('an ear that goes deaf at the end does not end the session twice', () => {
    const bench = inSet();
    bench.hear('I feel dizzy');
    bench.ear({ type: 'deaf', why: 'unplugged' });
    bench.seconds(60);
    expect(bench.logged('ended')).toHaveLength(1);
  });

  it('an ear that goes deaf is spoken of, and hands go on at the same question', () => {
    const bench = atCheck();
    bench.ear({ type: 'deaf', why: 'unplugged' });
    bench.seconds(TONE_SECONDS.halted);
    expect(bench.sounding()).toBe(book.lines['say.deaf']);
    expect(bench.of('trouble')).toMatchObject([{ what: 'unplugged' }]);
    bench.untilAsked();
    bench.hand({ result: 'held' });
    expect(bench.logged('finding')).toMatchObject([{ result: 'held' }]);
  });
});

describe('a whole hinge', () => {
  it('that is held throughout is ready after two checks', () => {
    const bench = atCheck();
    bench.hear('clean');
    bench.untilAsked('check/hinge-bar');
    bench.hear('clean');
    bench.seconds(60);
    expect(bench.of('end')).toMatchObject([
      { reason: 'completed', areas: [{ area: 'hinge', outcome: 'ready' }], liftsReady: ['pulls'] },
    ]);
  });
});
