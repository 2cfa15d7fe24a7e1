// @vitest-environment jsdom
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  DEEDS,
  deedOf,
  keysOf,
  ownKeysFrom,
  refusalOf,
  withKey,
  type OwnKey,
} from '../../src/domain/hearing/deeds';
import { NO_REPLY, type Reply } from '../../src/domain/hearing/reply';
import { attachHands, createHands } from '../../src/ear/hands';
import { replyOfKey } from '../../src/ear/keys';

const PROMPTS = [
  ...['check/hinge-unloaded', 'set/deadlift', 'pain/how-much', 'pain/kind', 'confirm', 'idle'],
];
const setting = (...keys: [string, OwnKey['deed']][]) =>
  keys.reduce<OwnKey[]>((own, [key, deed]) => withKey(own, key, deed), []);
const at = (prompt: string, key: string, own: OwnKey[]) => {
  const reply = replyOfKey(prompt, key, own);
  return (
    reply &&
    Object.fromEntries(
      Object.entries(reply).filter(([, is]) => is !== null && is !== false && String(is) !== ''),
    )
  );
};

describe('a key that a coach has set', () => {
  it('does that alone, in either case of its letter', () => {
    const own = setting(['p', 'forward'], ['F5', 'lost']);
    expect(at('set/deadlift', 'P', own)).toEqual({ result: 'held' });
    expect(at('confirm', 'p', own)).toEqual({ command: 'yes' });
    expect(at('idle', 'p', own)).toEqual({ command: 'ready' });
    expect(at('check/hinge-unloaded', 'F5', own)).toEqual({ result: 'lost' });
    expect(at('idle', 'F5', own)).toBeNull();
    expect(keysOf(own, 'pause')).toEqual([]);
    expect(keysOf(own, 'lost')).toEqual(['l', 'F5']);
  });

  it('that was taken away does nothing, and what it comes with is not kept as its own', () => {
    const own = setting(['PageDown', null]);
    for (const prompt of PROMPTS) expect(at(prompt, 'PageDown', own)).toBeNull();
    expect(withKey(own, 'PageDown', 'forward')).toEqual([]);
  });

  it('comes before the letters of a question, and not before the answers about pain', () => {
    const own = setting(['n', 'louder'], ['h', 'pause'], ['s', 'stop'], ['k', null], ['7', 'skip']);
    expect(at('confirm', 'n', own)).toEqual({ command: 'louder' });
    expect(at('set/deadlift', 'h', own)).toEqual({ command: 'pause' });
    expect(at('pain/kind', 'n', own)).toEqual({ painKind: 'new' });
    expect(at('pain/kind', 's', own)).toEqual({ painKind: 'sharp' });
    expect(at('pain/kind', 'k', own)).toEqual({ painKind: 'known' });
    expect(at('pain/how-much', '7', own)).toEqual({ result: 'pain', pain: 7 });
    expect(at('idle', '7', own)).toEqual({ command: 'skip' });
    expect(at('idle', 'k', own)).toBeNull();
  });

  it('may be the one button of a headset, which stops until then, however it is sent', () => {
    for (const key of ['MediaPlayPause', 'MediaPlay', 'MediaPause']) {
      expect(at('idle', key, [])).toEqual({ command: 'stop' });
      expect(at('set/deadlift', key, setting(['MediaPause', 'forward']))).toEqual({
        result: 'held',
      });
    }
  });

  it('never answers about pain by a deed, whatever is set; "it hurts" counts anywhere else', () => {
    const own = DEEDS.map((deed, at): OwnKey => ({ key: `F${at + 1}`, deed }));
    const answers = (prompt: string) =>
      own.flatMap(({ key }) => {
        const { result = null, painKind = null } = replyOfKey(prompt, key, own) ?? NO_REPLY;
        return result ?? painKind ?? [];
      });
    expect(answers('pain/how-much')).toEqual([]);
    expect(answers('pain/kind')).toEqual([]);
    expect(answers('idle')).toEqual(['pain']);
    expect(answers('confirm')).toEqual(['pain']);
    expect(answers('set/deadlift')).toEqual(['held', 'lost', 'short', 'pain']);
  });
});

describe('Escape', () => {
  it('stops at every prompt, whatever is set or was kept', () => {
    const deed = fc.constantFrom(null, ...DEEDS);
    const key = fc.constantFrom('Escape', 'Esc', 'p', ' ', 'MediaPlayPause', 'F1');
    const keys = fc.array(fc.record({ key, deed }));
    fc.assert(
      fc.property(keys, fc.constantFrom(...PROMPTS), (own, prompt) => {
        expect(replyOfKey(prompt, 'Escape', own)?.command).toBe('stop');
        expect(deedOf(own, 'Escape')).toBe('stop');
        expect(withKey([], 'Escape', null)).toEqual([]);
      }),
    );
  });
});

describe('keys that cannot be chosen', () => {
  it.each([
    ['Escape', 'stops'],
    ['Tab', 'moves'],
    ['Shift', 'held-with-others'],
    ['AltGraph', 'held-with-others'],
    ['Unidentified', 'nameless'],
    ['Dead', 'nameless'],
    ['', 'nameless'],
  ])('%s', (key, why) => {
    expect(refusalOf(key)).toBe(why);
    expect(withKey([], key, 'pause')).toEqual([]);
  });

  it('are no others', () => {
    for (const key of [' ', 'Enter', 'q', '5', 'F5', 'PageUp', 'MediaPlayPause', 'AudioVolumeUp'])
      expect(refusalOf(key)).toBeNull();
  });
});

describe('own keys as they are kept', () => {
  const kept = fc
    .array(fc.tuple(fc.constantFrom('a', 'p', ' ', 'F5', '7'), fc.constantFrom(null, ...DEEDS)))
    .map((keys) => setting(...keys));

  it('are read again the same, whatever was set', () => {
    fc.assert(
      fc.property(kept, (own) => {
        expect(ownKeysFrom(JSON.stringify(own))).toEqual(own);
        expect(new Set(own.map(({ key }) => key)).size).toBe(own.length);
      }),
    );
  });

  it.each([
    ...['', 'x', '{}', 'null', '[1]', '[null]', '[{"key":"a"}]', '[{"key":1,"deed":"stop"}]'],
    ...[
      '[{"key":"a","deed":"fly"}]',
      '[{"key":"Escape","deed":null}]',
      '[{"key":"Tab","deed":null}]',
    ],
  ])('are none where they read %s', (text) => {
    expect(ownKeysFrom(text)).toBeNull();
  });
});

describe('hands', () => {
  it('take keys as they are set, from the next press on, and only once while held down', () => {
    const hands = createHands();
    const replies: Reply[] = [];
    hands.listen((hearing) => hearing.type === 'reply' && replies.push(hearing.reply));
    const handlers = new Map<string, (() => void) | null>();
    const detach = attachHands(hands, window, {
      setActionHandler: (action, run) => void handlers.set(action, run as (() => void) | null),
    });
    const press = (key: string, more: KeyboardEventInit = {}) =>
      document.body.dispatchEvent(
        new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...more }),
      );
    expect(press('F5')).toBe(true);
    hands.setKeys(setting(['F5', 'pause'], ['MediaPlayPause', 'resume']));
    // Taken: the page is not loaded anew by it.
    expect(press('F5')).toBe(false);
    press('F5', { repeat: true });
    press('F5', { ctrlKey: true });
    handlers.get('play')?.();
    hands.setKeys([]);
    press('F5');
    handlers.get('pause')?.();
    detach();
    expect(replies.map(({ command }) => command)).toEqual(['pause', 'resume', 'stop']);
  });
});
