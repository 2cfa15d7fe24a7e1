import { describe, expect, it } from 'vitest';
import { isHalted, isPaused, openQuestion } from '../../../src/domain/deciding/deciding';
import { RED_FLAGS } from '../../../src/domain/findings';
import { Telling } from './logging';

const bell = () => new Telling('hinge').lost('knees-forward');
const asked = (told: Telling, prompt: string) => told.add({ type: 'asked', prompt, side: null });

describe('7 stop and red flags', () => {
  it('7.1 stop asks whether to end, whatever was going on', () => {
    for (const told of [new Telling('hinge'), bell(), bell().say('pain')]) {
      told.halt();
      expect(told.decision).toMatchObject({
        step: { do: 'ask', prompt: 'confirm', about: 'end-session', area: 'hinge' },
        rule: '7.1',
      });
      expect(isHalted(told.entries)).toBe(true);
    }
  });

  it('7.2 a no goes on with the same step', () => {
    for (const told of [bell().held(), bell().say('pain')]) {
      const { step } = told;
      told.halt().end(false);
      expect([told.step, told.rule]).toEqual([step, '7.2']);
      expect(isHalted(told.entries)).toBe(false);
    }
  });

  it('7.3 only a yes ends it, and nothing comes after', () => {
    const told = bell().halt().end(true);
    expect(told.decision).toMatchObject({
      step: { do: 'end', reason: 'stopped' },
      rule: '7.3',
      to: null,
    });
    expect(told.stands).toBe('hinge unfinished 0');
    expect(told.coach('next').now).toBe('end stopped');
  });

  it('7.2 an overrule does not answer the question', () => {
    const told = bell().halt().coach('next');
    expect(told.now).toBe('ask end-session');
    expect(told.end(false).now).toBe('set 1 bell-hinge');
  });

  it.each(RED_FLAGS)('7.4 %s ends the session without asking', (flag) => {
    for (const told of [bell(), bell().say('pain'), bell().halt(), bell().pause()]) {
      told.redFlag(flag);
      expect([told.now, told.rule]).toEqual(['end red-flag', '7.4']);
      expect(told.stands).toBe('hinge referred 0');
    }
  });

  it('7.4 no undo and no word of the coach takes a red flag back', () => {
    const told = bell().redFlag('chest-pain');
    const flag = told.entries.at(-1)?.id ?? '';
    expect(told.undo(flag).coach('again').end(false).now).toBe('end red-flag');
    expect(told.halt().end(true).now).toBe('end red-flag');
  });
});

describe('8 silence', () => {
  it('8.1 a question that stays open decides nothing', () => {
    const told = bell();
    const { decision } = told;
    asked(told.wait(40), 'set/bell-hinge');
    asked(told.wait(400), 'set/bell-hinge').add({
      type: 'heard',
      prompt: 'set/bell-hinge',
      text: 'lovely weather',
      verdict: 'ignore',
      reply: null,
    });
    expect(told.decision).toEqual(decision);
  });

  it('8.1 nor does a pause', () => {
    const told = bell();
    const { decision } = told;
    expect(told.pause().decision).toEqual(decision);
    expect(isPaused(told.entries)).toBe(true);
    expect(told.resume().decision).toEqual(decision);
    expect(isPaused(told.entries)).toBe(false);
  });
});

describe('the open question', () => {
  it('is the last one asked, since it was first asked', () => {
    const told = asked(bell().wait(30), 'set/bell-hinge');
    expect(openQuestion(told.entries)).toEqual({
      prompt: 'set/bell-hinge',
      side: null,
      atSeconds: 50,
    });
    asked(told.wait(8), 'set/bell-hinge');
    expect(openQuestion(told.entries)?.atSeconds).toBe(50);
  });

  it('is none before it is asked, and none once it is answered, overruled or undone', () => {
    expect(openQuestion(bell().entries)).toBeNull();
    const open = () => asked(bell(), 'set/bell-hinge');
    expect(openQuestion(open().held().entries)).toBeNull();
    expect(openQuestion(open().coach('next').entries)).toBeNull();
    expect(openQuestion(open().undo('s:d:2').entries)).toBeNull();
    const pain = asked(bell().say('pain'), 'pain/how-much');
    expect(openQuestion(pain.entries)?.prompt).toBe('pain/how-much');
    expect(openQuestion(pain.number(2).entries)).toBeNull();
  });

  it('stays open through a stop that is not confirmed', () => {
    const told = asked(bell(), 'set/bell-hinge').wait(5).halt();
    expect(openQuestion(told.entries)?.prompt).toBe('set/bell-hinge');
    asked(told, 'confirm');
    expect(openQuestion(told.entries)?.prompt).toBe('confirm');
    told.end(false);
    expect(openQuestion(told.entries)?.prompt).toBe('set/bell-hinge');
    asked(told.halt(), 'confirm').end(true);
    expect(openQuestion(told.entries)).toBeNull();
  });
});
