// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { MicrophoneMeasured } from '../../src/domain/hearing/microphoneAdvice';
import { adviceOf, standingOf } from '../../src/domain/hearing/microphoneAdvice';
import { advisedOf } from '../../src/main/microphone/words';
import type { MicrophoneRun } from '../../src/screens/microphone/state';
import type { SeatState } from '../../src/screens/seat';
import type { ReplyHeard } from '../../src/session/microphoneCheck';
import { STATE } from './fakeSeat';
import { faultsOfPage, show } from './rendering';

const RIGHT: ReplyHeard[] = ['left one forty, ribs flared', 'pass', 'stop'].map((text) => ({
  ...{ text, how: 'right' as const, heard: text.replace(',', '') },
}));
const HEARD: ReplyHeard[] = [
  RIGHT[0]!,
  { text: 'pass', how: 'other', heard: 'pause' },
  { text: 'stop', how: 'unheard', heard: null },
];
const MEASURED: MicrophoneMeasured = {
  ...{ asked: 3, right: 3, almost: 0, other: 0, unheard: 0 },
  soundArrives: true,
  aboveNoiseDecibels: 14,
  noiseDecibels: -58,
  clippedShare: 0,
  aboveOwnVoiceDecibels: null,
  hearsOverSound: true,
  othersTalked: false,
  hasCallWord: false,
  isFitted: false,
  recogniser: 'strong',
  isBetterComing: false,
};
const resultOf = (change: Partial<MicrophoneMeasured>, replies = RIGHT) => {
  const measured = { ...MEASURED, ...change };
  const result = { measured, standing: standingOf(measured), advice: adviceOf(measured), replies };
  return { ...result, advised: advisedOf(result) };
};
const run = (change: Partial<MicrophoneRun>, more: Partial<SeatState> = {}): SeatState => ({
  ...STATE,
  where: 'microphone',
  microphone: { state: 'hears', level: 0.5, hearsWell: 'good' },
  microphoneCheck: {
    ...{ room: 'quiet', last: null },
    run: {
      ...{ stage: 'listening', line: 'pass', isAgain: false, isMute: false, wasHidden: false },
      ...{ of: 3, heard: [], result: null, before: null },
      ...change,
    },
  },
  ...more,
});
const finished = (change: Partial<MicrophoneMeasured> = {}, more: Partial<MicrophoneRun> = {}) =>
  run({ stage: 'finished', line: null, heard: RIGHT, result: resultOf(change), ...more });
const unplugged = { microphone: { ...STATE.microphone, state: 'unplugged' as const } };
const LACKING = { right: 1, other: 1, unheard: 1, aboveNoiseDecibels: 4, noiseDecibels: -38 };

const STATES: Record<string, SeatState> = {
  loading: run({ stage: 'loading' }, { ear: { state: 'loading', progress: 0.4 } }),
  walking: run({ stage: 'walking' }),
  room: run({ stage: 'room' }),
  asking: run({ stage: 'asking' }),
  again: run({ stage: 'asking', isAgain: true, heard: HEARD.slice(0, 1) }),
  listening: run({}),
  telling: run({ stage: 'telling', line: 'stop', heard: HEARD.slice(0, 2) }),
  mute: run({ isMute: true }),
  'was hidden': run({ wasHidden: true }),
  deaf: run({ stage: 'deaf' }, unplugged),
  failed: run({ stage: 'failed' }, { ear: { state: 'failed', progress: null } }),
  hidden: run({ stage: 'hidden' }),
  well: finished(),
  badly: finished(LACKING, { heard: HEARD, result: resultOf(LACKING, HEARD) }),
  nothing: finished({ right: 0, unheard: 3, soundArrives: false, aboveNoiseDecibels: null }),
  compared: finished({}, { before: resultOf(LACKING, HEARD) }),
};

beforeAll(() => {
  document.documentElement.lang = 'en';
  document.title = 'Sayso';
});
afterEach(cleanup);
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const shown = async (name: string) => {
  const seat = show(STATES[name]!);
  await screen.findByRole('heading', { level: 1 });
  return seat;
};
const cells = (row: RegExp) =>
  within(screen.getByRole('row', { name: row }))
    .getAllByRole('cell')
    .map(({ textContent }) => textContent.trim());

it.each(Object.keys(STATES))('%s has nothing that axe objects to', async (name) => {
  await shown(name);
  expect(await faultsOfPage()).toEqual([]);
});

describe('at the gate', () => {
  it('the check begins by one tap', () => {
    const seat = show({});
    press('Check it from where you stand');
    expect(seat.did).toEqual([['checkMicrophone']]);
  });

  it('says how loud the room is, and that it is distorted', () => {
    const microphone = { state: 'hears', level: 1, hearsWell: 'loud' } as const;
    show({ microphone, microphoneCheck: { room: 'loud', last: null, run: null } });
    expect(screen.getByText(/Distorted: talk closer rather than louder/)).not.toBeNull();
    expect(screen.getByText(/The room by itself: loud/)).not.toBeNull();
  });

  it('tells what the last check said, and when', () => {
    const last = { date: '2031-03-02', words: 'Use earbuds or a clip-on microphone.' };
    show({ microphoneCheck: { room: null, last, run: null } });
    expect(screen.getByText('2 March 2031: Use earbuds or a clip-on microphone.')).not.toBeNull();
  });

  it('is not offered where nothing can hear', () => {
    show({ ear: { state: 'failed', progress: null } });
    expect(screen.queryByRole('button', { name: /from where you stand/ })).toBeNull();
  });
});

describe('while it runs', () => {
  it('shows large what is to be said, and how loud it is', async () => {
    await shown('listening');
    expect(screen.getByText('“pass”').className).toContain('say-line');
    expect(screen.getByText('Say it now.')).not.toBeNull();
    expect(screen.getByRole('meter', { name: 'Loudness' })).not.toBeNull();
  });

  it('can be hurried on where the coach stands already, and ended by touch and by Escape', async () => {
    const seat = await shown('walking');
    press('I am there');
    press('End the check');
    fireEvent.keyDown(document, { key: 'Escape' });
    expect(seat.did).toEqual([['goOnWithMicrophone'], ['leaveMicrophone'], ['leaveMicrophone']]);
  });

  it('hands other keys on, so that pedals do here what they do elsewhere', async () => {
    const seat = await shown('walking');
    fireEvent.keyDown(document, { key: 'PageDown' });
    expect(seat.did).toEqual([['key', 'PageDown']]);
  });

  it('says of each reply what was heard', async () => {
    await shown('telling');
    const list = within(screen.getByRole('list', { name: 'What was heard' }));
    expect(list.getAllByRole('listitem').map(({ textContent }) => textContent)).toEqual([
      'left one forty, ribs flared: Heard right.',
      'pass: Taken for something else. It heard “pause”.',
    ]);
  });

  it('is not told to a screen reader over Sayso’s own voice, but where there is none', async () => {
    await shown('listening');
    expect(screen.queryByRole('status')).toBeNull();
    await shown('mute');
    expect(screen.getByRole('status').textContent).toContain('“pass”');
    expect(screen.getByText(/No voice was found/)).not.toBeNull();
  });

  it.each([
    ['loading', 'status', 'The check begins by itself'],
    ['deaf', 'alert', 'The microphone was unplugged'],
    ['failed', 'alert', 'The recogniser could not load'],
    ['hidden', 'alert', 'out of sight'],
  ])('%s says what is wrong and what to do', async (name, role, words) => {
    await shown(name);
    expect(screen.getByRole(role).textContent).toContain(words);
  });

  it('says once it is back that it waited, and once more what was not heard', async () => {
    await shown('was hidden');
    expect(screen.getByText(/waited while this page was out of sight/)).not.toBeNull();
    await shown('again');
    expect(screen.getByText(/Not heard. Say it once more/)).not.toBeNull();
  });

  it('a microphone that is denied while the recogniser loads is told at once, and tried again', async () => {
    const denied = { microphone: { ...STATE.microphone, state: 'denied' as const } };
    const seat = show(run({ stage: 'loading' }, denied));
    expect((await screen.findByRole('alert')).textContent).toContain('not allowed');
    press('Try the microphone again');
    press('Back to the start');
    expect(seat.did).toEqual([['goOnWithMicrophone'], ['leaveMicrophone']]);
  });
});

describe('what came of it', () => {
  it('good: says so first, with the measures, and leads back', async () => {
    const seat = await shown('well');
    expect(screen.getByRole('heading', { name: 'It hears you well from there.' })).not.toBeNull();
    expect(cells(/above the room/)).toEqual(['14 dB']);
    expect(cells(/Recogniser/)).toEqual(['the better']);
    const [first] = screen.getAllByRole('button');
    expect(first?.className).toContain('first');
    press('To the start');
    expect(seat.did).toEqual([['leaveMicrophone']]);
  });

  it('bad: what to do, the most useful first, each with its reason, and again', async () => {
    const seat = await shown('badly');
    expect(
      screen.getByRole('heading', { level: 2, name: /does not hear you well/ }),
    ).not.toBeNull();
    const [nearer, turn] = [...document.querySelectorAll('.advice li')];
    expect(nearer?.textContent).toMatch(
      /Come nearer: half the distance.*4 decibels above the room/,
    );
    expect(turn?.textContent).toMatch(/Turn the phone/);
    press('Again');
    expect(seat.did).toEqual([['checkMicrophoneAgain']]);
  });

  it.each([
    [{ aboveNoiseDecibels: 7 }, 'It hears you from there, but only just.'],
    [{ right: 2, other: 1 }, 'It hears you from there, but not everything.'],
  ])('%o: %s', async (change, words) => {
    show(finished(change));
    expect(await screen.findByRole('heading', { name: words })).not.toBeNull();
  });

  it('nothing: what to look at', async () => {
    await shown('nothing');
    expect(document.body.textContent).toMatch(/muted, not allowed, or used by another app/);
  });

  it('moved nearer: before and now side by side', async () => {
    await shown('compared');
    expect(screen.getByText('Better than before.')).not.toBeNull();
    expect(cells(/above the room/)).toEqual(['4 dB', '14 dB']);
    expect(cells(/Replies heard right/)).toEqual(['1 of 3', '3 of 3']);
  });

  it('mistaken replies lead to the voice check in one tap', async () => {
    const change = { right: 1, other: 2 };
    const seat = show(finished(change, { result: resultOf(change) }));
    await screen.findByRole('heading', { level: 1 });
    press('Check my voice');
    expect(seat.did).toEqual([['leaveMicrophone'], ['checkVoice']]);
  });

  it('the advice of a call word leads to its form in one tap, and back in one', async () => {
    const seat = show(finished({ othersTalked: true }));
    await screen.findByRole('heading', { level: 1 });
    expect(document.querySelector('.advice')?.textContent).toMatch(/call word/i);
    press('Set a call word');
    const field = await screen.findByRole('textbox', { name: 'Call word' });
    expect(document.activeElement).toBe(field);
    fireEvent.change(field, { target: { value: 'captain' } });
    fireEvent.keyDown(field, { key: 'n' });
    press('Use it');
    await screen.findByText('On.');
    act(() => seat.patch({ coach: { ...STATE.coach, callWord: 'captain' } }));
    expect(await faultsOfPage()).toEqual([]);
    press('Back to the result');
    expect(screen.queryByRole('textbox')).toBeNull();
    expect(document.activeElement?.textContent).toBe('Call word “captain”: change it');
    fireEvent.click(document.activeElement!);
    fireEvent.keyDown(await screen.findByRole('textbox'), { key: 'Escape' });
    expect(screen.queryByRole('textbox')).toBeNull();
    expect(seat.did).toEqual([['setCallWord', 'captain']]);
  });

  it('is not led to a call word without that advice', async () => {
    await shown('badly');
    expect(screen.queryByRole('button', { name: /call word/i })).toBeNull();
  });

  it('takes the keyboard to its heading as it comes', async () => {
    const seat = await shown('listening');
    act(() => seat.patch(STATES['well']!));
    expect(document.activeElement?.textContent).toBe('From where you stand');
  });
});
