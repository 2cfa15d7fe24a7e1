import { beforeEach, describe, expect, it } from 'vitest';
import { withOwnWords } from '../../src/domain/hearing/coachWords';
import { book, CHOICE, place, until } from './warmUpStand';

let at: ReturnType<typeof place>;
beforeEach(async () => {
  at = place();
  at.warmUp.show();
  await until(() => (at.shown()?.offers.length ?? 0) > 0);
});
const begin = async () => {
  at.warmUp.begin(CHOICE);
  await until(() => at.shown()?.stage === 'running');
};

describe('a group is led at the seat', () => {
  it('each warm-up is offered with what it takes to a group, and the least', () => {
    const offers = at.shown()?.offers ?? [];
    expect(offers.map(({ id }) => id)).toEqual(Object.keys(book.warmUps));
    for (const { seconds, leastSeconds } of offers) {
      expect(seconds).toBeGreaterThan(480);
      expect(leastSeconds).toBeGreaterThan(20);
      expect(leastSeconds).toBeLessThan(200);
    }
  });

  it('shows the turn that is on and the next, and whether it is held', async () => {
    await begin();
    expect(at.awake.now).toBe(1);
    at.clock.advance(30_000);
    expect(at.shown()?.turn).toEqual({
      ...{ name: 'long breaths out', number: 1, of: 9, next: 'the wall hinge' },
    });
    at.reply('pause');
    expect(at.shown()).toMatchObject({ isHeld: true, asksEnd: false });
    expect(at.isSilent()).toBe(true);
    at.reply('resume');
    expect(at.shown()).toMatchObject({ isHeld: false });
  });

  it("the leader's word that may go on is heard at once where it is held, and over nothing that plays", async () => {
    at.warmUp.begin({ ...CHOICE, listen: 'microphone' });
    await until(() => at.shown()?.stage === 'running');
    at.clock.advance(30_000);
    const signs = () => at.tones.filter((tone) => tone === 'heard').length;
    at.soFar('hold on');
    expect(signs()).toBe(0);
    at.hear('hold on');
    at.clock.advance(5000);
    at.soFar('nice work everybody');
    expect(signs()).toBe(0);
    at.soFar('go on');
    expect(signs()).toBe(1);
    expect(at.shown()).toMatchObject({ isHeld: true });
    expect(at.store.state().view.tone).toBe('heard');
    at.tell({ type: 'nothing' });
    expect(at.store.state().view.tone).toBeNull();
    at.hear('stop');
    at.clock.advance(6000);
    at.soFar('yes');
    expect(signs()).toBe(2);
    expect(at.shown()).toMatchObject({ stage: 'running', asksEnd: true });
  });

  it('"stop" and "yes" end it; the screen may sleep again, and one person is spoken to as before', async () => {
    const usual = at.manner.now().stretch;
    await begin();
    at.clock.advance(20_000);
    at.reply('stop');
    expect(at.shown()).toMatchObject({ asksEnd: true, stage: 'running' });
    at.clock.advance(6000);
    at.reply('yes');
    expect(at.shown()).toMatchObject({ stage: 'over', ended: 'stopped' });
    expect(at.awake.now).toBe(0);
    at.warmUp.leave();
    expect(at.store.state()).toMatchObject({ where: 'people', warmUp: null });
    expect(at.manner.now().stretch).toBeLessThan(usual);
    expect(at.manner.now().stretch).toBe(1);
  });

  it('left while it plays it is silent at once, and says nothing more', async () => {
    await begin();
    at.clock.advance(8000);
    at.warmUp.leave();
    expect(at.isSilent()).toBe(true);
    expect(at.awake.now).toBe(0);
    at.clock.advance(600_000);
    expect(at.isSilent()).toBe(true);
    expect(at.store.state().warmUp).toBeNull();
  });

  it('left while it is still on its way it never begins', async () => {
    at.warmUp.begin(CHOICE);
    at.warmUp.leave();
    for (let turn = 0; turn < 100; turn += 1) await new Promise(setImmediate);
    expect(at.store.state()).toMatchObject({ where: 'people', warmUp: null });
    expect(at.awake.now).toBe(0);
  });

  it('begun twice by two taps it plays once', async () => {
    at.warmUp.begin(CHOICE);
    at.warmUp.begin(CHOICE);
    await until(() => at.shown()?.stage === 'running');
    for (let turn = 0; turn < 100; turn += 1) await new Promise(setImmediate);
    expect(at.awake.now).toBe(1);
  });

  it('ends by itself when it was promised to', async () => {
    at.warmUp.begin({ ...CHOICE, minutes: 5 });
    await until(() => at.shown()?.stage === 'running');
    expect(at.shown()?.endsAtMilliseconds).toBe(Date.UTC(2031, 2, 8, 9, 5, 0));
    at.clock.advance(5 * 60_000 - 100);
    expect(at.shown()?.stage).toBe('running');
    at.clock.advance(200);
    expect(at.shown()).toMatchObject({ stage: 'over', ended: 'completed' });
  });

  it('the one button of a remote goes on: to the next turn, or on with what is held; the other goes back', async () => {
    await begin();
    at.clock.advance(30_000);
    at.reply('ready');
    expect(at.shown()?.turn?.number).toBe(2);
    at.reply('pause');
    at.reply('ready');
    expect(at.shown()).toMatchObject({ isHeld: false, turn: { number: 2 } });
    at.clock.advance(1000);
    at.reply('undo');
    expect(at.shown()?.turn?.number).toBe(1);
  });

  it('a voice that takes much longer than planned never speaks over itself, nor over a count', async () => {
    at = place({ longer: 1.8 });
    at.warmUp.show();
    await until(() => (at.shown()?.offers.length ?? 0) > 0);
    await begin();
    at.clock.advance(900_000);
    expect(at.lines.length).toBeGreaterThan(20);
    expect(at.atOnce).toEqual({ most: 1, countsOverCues: 0 });
  });

  it('led by touch, the room commands nothing, but "stop" halts', async () => {
    await begin();
    at.clock.advance(30_000);
    at.hear('skip');
    expect(at.shown()?.turn?.number).toBe(1);
    at.hear('stop');
    expect(at.shown()).toMatchObject({ asksEnd: true });
  });

  it('a microphone that is lost is said aloud, and the turn is told anew', async () => {
    at.warmUp.begin({ ...CHOICE, listen: 'microphone' });
    await until(() => at.shown()?.stage === 'running');
    at.clock.advance(30_000);
    at.lines.length = 0;
    at.tell({ type: 'deaf', why: 'unplugged' });
    at.clock.advance(12_000);
    expect(at.lines[0]).toBe(book.lines['say.deaf']);
    expect(at.lines[1]).toBe('Next, long breaths out.');
  });

  describe('as its leader has set it', () => {
    const led = async (set: Parameters<typeof place>[0]) => {
      at = place(set);
      at.warmUp.show();
      await until(() => (at.shown()?.offers.length ?? 0) > 0);
      at.warmUp.begin({ ...CHOICE, listen: 'microphone' });
      await until(() => at.shown()?.stage === 'running');
      at.clock.advance(30_000);
    };

    it('with a call word, only what comes after it is taken', async () => {
      await led({ coach: { callWord: 'captain' } });
      at.hear('hold on');
      expect(at.shown()?.isHeld).toBe(true);
      at.hear('go on');
      expect(at.shown()?.isHeld).toBe(true);
      at.hear('captain go on');
      expect(at.shown()?.isHeld).toBe(false);
      at.hear('skip');
      expect(at.shown()?.turn?.number).toBe(1);
      at.hear('captain skip');
      expect(at.shown()?.turn?.number).toBe(2);
    });

    it('words of one’s own are understood', async () => {
      const own = [{ kind: 'commands', id: 'skip', words: 'hop over' }] as const;
      await led({ coach: { book: withOwnWords(book, [...own]) } });
      at.hear('hop over');
      expect(at.shown()?.turn?.number).toBe(2);
      await led({});
      at.hear('hop over');
      expect(at.shown()?.turn?.number).toBe(1);
    });
  });

  it('the music comes back once it is over, and once it is left', async () => {
    await begin();
    at.clock.advance(20_000);
    at.reply('stop');
    const halted = at.levels.at(-1);
    at.clock.advance(6000);
    at.reply('yes');
    expect(at.shown()?.stage).toBe('over');
    expect(at.levels.at(-1)).not.toBe(halted);
    const before = at.levels.at(-1);
    at.warmUp.show();
    await until(() => (at.shown()?.offers.length ?? 0) > 0);
    await begin();
    at.clock.advance(3000);
    expect(at.levels.at(-1)).not.toBe(before);
    at.warmUp.leave();
    expect(at.levels.at(-1)).toBe(before);
  });

  it('what is offered takes as long as it plays, at the pace that is spoken at', async () => {
    const promised = at.shown()!.offers.find(({ id }) => id === CHOICE.id)!.seconds;
    await begin();
    at.clock.advance(promised * 1000 - 50);
    expect(at.shown()?.stage).toBe('running');
    at.clock.advance(100);
    expect(at.shown()?.stage).toBe('over');
    at.manner.adjust('slower');
    at.warmUp.show();
    await until(() => (at.shown()?.offers.length ?? 0) > 0);
    expect(at.shown()!.offers[0]!.seconds).toBeGreaterThan(promised);
  });
});
