// @vitest-environment jsdom
import { beforeEach, describe, expect, test } from 'vitest';
import { NO_REPLY, type Reply } from '../../src/domain/hearing/reply';
import { attachHands, createHands } from '../../src/ear/hands';
import { replyOfKey } from '../../src/ear/keys';

const PROMPTS = [
  'check/hinge-unloaded',
  'set/deadlift',
  'pain/how-much',
  'pain/kind',
  'confirm',
  'idle',
];

describe('keys', () => {
  test.each(PROMPTS)('the stop keys stop at %s', (prompt) => {
    for (const key of ['Escape', 'MediaStop', 'MediaPlayPause'])
      expect(replyOfKey(prompt, key)?.command).toBe('stop');
  });

  test.each([
    ['check/hinge-unloaded', 'PageDown', { result: 'held' }],
    ['set/deadlift', ' ', { result: 'held' }],
    ['set/deadlift', 'l', { result: 'lost' }],
    ['set/deadlift', 's', { result: 'short' }],
    ['set/deadlift', 'x', { result: 'pain' }],
    ['set/deadlift', 'PageUp', { command: 'undo' }],
    ['confirm', 'Enter', { command: 'yes' }],
    ['confirm', 'ArrowLeft', { command: 'no' }],
    ['idle', 'MediaTrackNext', { command: 'ready' }],
    ['idle', 'P', { command: 'pause' }],
    ['idle', 'r', { command: 'repeat' }],
    ['pain/how-much', '7', { result: 'pain', pain: 7 }],
    ['pain/kind', 'n', { painKind: 'new' }],
    ['pain/kind', 's', { painKind: 'sharp' }],
  ] as [string, string, Partial<Reply>][])('at %s, "%s" means %o', (prompt, key, meaning) => {
    expect(replyOfKey(prompt, key)).toEqual({ ...NO_REPLY, ...meaning });
  });

  test.each(['pain/how-much', 'pain/kind'])('a pedal never answers %s', (prompt) => {
    for (const key of [' ', 'Enter', 'PageDown', 'ArrowRight', 'MediaTrackNext'])
      expect(replyOfKey(prompt, key)).toBeNull();
  });

  test('letters that mean nothing, and names of objects, are left alone', () => {
    for (const key of ['z', 'Tab', 'F5', 'constructor', 'toString'])
      expect(replyOfKey('idle', key)).toBeNull();
  });
});

describe('hands on a page', () => {
  const replies: Reply[] = [];
  let handlers: Map<string, (() => void) | null>;
  let detach: () => void;

  beforeEach(() => {
    document.body.innerHTML = '<button>Held</button><input><p tabindex="0">text</p>';
    replies.length = 0;
    handlers = new Map();
    const hands = createHands();
    hands.attend('set/deadlift');
    hands.listen((hearing) => hearing.type === 'reply' && replies.push(hearing.reply));
    detach = attachHands(hands, window, {
      setActionHandler: (action: string, run: (() => void) | null) => {
        if (action === 'stop') throw new TypeError('unknown action');
        handlers.set(action, run);
      },
    } as unknown as MediaSession);
    return () => {
      detach();
      document.body.innerHTML = '';
    };
  });

  const press = (selector: string, key: string, more: KeyboardEventInit = {}) => {
    const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...more });
    document.querySelector(selector)?.dispatchEvent(event);
    return event.defaultPrevented;
  };

  test('a pedal answers and does not scroll the page', () => {
    expect(press('p', 'PageDown')).toBe(true);
    expect(replies).toMatchObject([{ result: 'held' }]);
  });

  test('a pedal held down answers once', () => {
    press('p', 'PageDown');
    press('p', 'PageDown', { repeat: true });
    expect(replies).toHaveLength(1);
  });

  test('Enter on a button presses the button only', () => {
    press('button', 'Enter');
    expect(replies).toEqual([]);
  });

  test('typing goes into the field; Escape stops even there', () => {
    press('input', 'l');
    press('input', 'Escape');
    expect(replies).toMatchObject([{ command: 'stop' }]);
  });

  test("the browser's own shortcuts are left alone", () => {
    press('p', 'r', { ctrlKey: true });
    expect(replies).toEqual([]);
  });

  test("a headset's button stops, although this browser lacks an action", () => {
    handlers.get('pause')?.();
    expect(replies).toMatchObject([{ command: 'stop' }]);
  });

  test('after detaching, keys and headset do nothing', () => {
    detach();
    press('p', 'PageDown');
    handlers.get('pause')?.();
    expect(replies).toEqual([]);
  });
});
