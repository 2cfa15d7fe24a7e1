// @vitest-environment jsdom
import { act, cleanup, configure, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { DEEDS } from '../../src/domain/hearing/deeds';
import { KEYS_STATES } from './keysStates';
import { faultsOfPage, show } from './rendering';

// Screens that come in files of their own take seconds on a busy machine.
configure({ asyncUtilTimeout: 15_000 });

afterEach(cleanup);
const open = async (state = 'keys') => {
  const seat = show(KEYS_STATES[state]!);
  await screen.findByRole('heading', { name: 'Keys' });
  return seat;
};
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
/** A key at whatever has the keyboard; false where the page took it. */
const key = (name: string, more: KeyboardEventInit = {}) =>
  fireEvent.keyDown(document.activeElement ?? document.body, { key: name, ...more });
const keysOf = (name: string) =>
  [...(screen.getByRole('heading', { name }).parentElement?.querySelectorAll('kbd') ?? [])].map(
    ({ textContent }) => textContent,
  );
const asks = (name: string) => screen.queryByRole('group', { name: `A key for ${name}` });
const told = () => screen.getByRole('status').textContent;

describe('the keys', () => {
  it('are reached from the gate', async () => {
    const seat = show({ ...KEYS_STATES['keys']!, where: 'gate' });
    press('Keys, pedal and headset');
    expect(seat.did).toEqual([['showKeys']]);
  });

  it('are listed by what they do, each deed with its keys', async () => {
    const seat = await open();
    expect(keysOf('Stop')).toEqual(['Escape', 'Headset: stop', 'Headset: its one button', 'Pause']);
    expect(keysOf('Forward')).toEqual([
      ...['Space', 'Enter', 'Page down', 'Down arrow', 'Right arrow', 'Headset: next'],
    ]);
    expect(keysOf('Pause')).toEqual(['P']);
    expect(keysOf('Slower')).toEqual([]);
    expect(screen.getAllByRole('heading', { level: 3 })).toHaveLength(DEEDS.length);
    press('Back');
    expect(seat.did).toEqual([['leaveKeys']]);
  });

  it('are shown as the coach has set them', async () => {
    await open('keys-own');
    expect(keysOf('Pause')).toEqual(['P', 'F5']);
    expect(keysOf('Stop')).not.toContain('Headset: its one button');
    expect(keysOf('Forward')).toContain('Headset: its one button');
    expect(keysOf('Skip')).toEqual([]);
  });

  it('tell what they do when they are tried', async () => {
    const seat = await open('keys-own');
    key('PageDown');
    expect(told()).toBe('“Page down”: Forward.');
    key('k');
    expect(told()).toBe('“K” does nothing.');
    key('Escape');
    expect(told()).toBe('“Escape”: Stop.');
    key('Tab');
    expect(told()).toBe('“Escape”: Stop.');
    expect(seat.did).toEqual([]);
  });

  it('go back to how they come with one tap, offered where something is not so', async () => {
    const seat = await open('keys-own');
    press('All keys as they come');
    expect(seat.did).toEqual([['resetKeys']]);
    await open();
    expect(screen.queryByRole('button', { name: 'All keys as they come' })).toBeNull();
  });

  it.each([
    ['keys-damaged', /could not be read. All of them are as they come/],
    ['keys-refused', /your keys hold until the page is closed/],
  ])('say it where they are not kept: %s', async (state, words) => {
    await open(state);
    expect(screen.getByText(words).closest('[role=alert]')).toBeTruthy();
  });
});

describe('a key is added', () => {
  it('by pressing it, wherever the keyboard is, and nothing else happens by it', async () => {
    const seat = await open();
    press('Add a key for Slower');
    expect(document.activeElement).toBe(asks('Slower'));
    expect(await faultsOfPage()).toEqual([]);
    expect(key('F5')).toBe(false);
    expect(seat.did).toEqual([['setKey', 'F5', 'slower']]);
    expect(told()).toBe('“F5”: Slower.');
    expect(asks('Slower')).toBeNull();
    expect(document.activeElement).toBe(
      screen.getByRole('button', { name: 'Add a key for Slower' }),
    );
  });

  it('that is a button of a headset', async () => {
    const seat = await open();
    let headset: ((key: string) => void) | null = null;
    seat.keys.hearHeadset = (onKey) => {
      headset = onKey;
      return () => (headset = null);
    };
    press('Add a key for Slower');
    act(() => headset?.('MediaTrackPrevious'));
    expect(screen.getByText(/“Headset: previous” is “Back” now. It becomes “Slower”/)).toBeTruthy();
    expect(headset).toBeNull();
  });

  it('that does something else once it was said what, and asked', async () => {
    const seat = await open();
    press('Add a key for Forward');
    key('p');
    const words = '“P” is “Pause” now. It becomes “Forward”.';
    expect(document.activeElement).toBe(screen.getByRole('group', { name: words }));
    expect(await faultsOfPage()).toEqual([]);
    press('Leave it');
    expect(seat.did).toEqual([]);
    press('Add a key for Forward');
    key('P');
    press('Change it');
    expect(seat.did).toEqual([['setKey', 'p', 'forward']]);
  });

  it('that stops only after it was said that it will not any more', async () => {
    const seat = await open();
    press('Add a key for Forward');
    key('MediaPause');
    expect(
      screen.getByText(/It becomes “Forward”. It will stop no more; Escape, “stop” aloud/),
    ).toBeTruthy();
    key('Escape');
    expect(screen.queryByText(/It becomes “Forward”/)).toBeNull();
    expect(seat.did).toEqual([]);
  });

  it.each([
    ['Shift', /does nothing alone/],
    ['Unidentified', /does not tell which one it is/],
    ['PageDown', /does that already/],
  ])('and not %s, which says why and waits on', async (name, words) => {
    const seat = await open();
    press('Add a key for Forward');
    key(name);
    expect(screen.getByText(words).closest('[role=alert]')).toBeTruthy();
    expect(asks('Forward')).toBeTruthy();
    key('F8');
    expect(seat.did).toEqual([['setKey', 'F8', 'forward']]);
  });

  it('or none: Escape leaves all as it is, and so does Cancel, by its own key too', async () => {
    const seat = await open();
    press('Add a key for Forward');
    key('Escape');
    expect(asks('Forward')).toBeNull();
    press('Add a key for Forward');
    // Tab is the browser's, and Enter there presses the button.
    expect(key('Tab')).toBe(true);
    screen.getByRole('button', { name: 'Cancel' }).focus();
    expect(key('Enter')).toBe(true);
    expect(asks('Forward')).toBeTruthy();
    press('Cancel');
    expect(asks('Forward')).toBeNull();
    expect(seat.did).toEqual([]);
  });

  it('once, however long it is held down', async () => {
    const seat = await open();
    press('Add a key for Slower');
    // The press that opened it goes on.
    expect(key('Enter', { repeat: true })).toBe(false);
    expect(asks('Slower')).toBeTruthy();
    key('F5');
    // The keyboard is at a button again, which a key still held would press.
    expect(key('Enter', { repeat: true })).toBe(false);
    expect(seat.did).toEqual([['setKey', 'F5', 'slower']]);
  });

  it("and the browser's own shortcuts go on", async () => {
    const seat = await open();
    press('Add a key for Slower');
    expect(key('r', { ctrlKey: true })).toBe(true);
    expect(seat.did).toEqual([]);
  });
});

describe('a key is taken away', () => {
  it('at once, and the keyboard stays near', async () => {
    const seat = await open();
    press('Take Backspace away from Back');
    expect(seat.did).toEqual([['setKey', 'Backspace', null]]);
    expect(told()).toBe('“Backspace” does nothing.');
    expect(document.activeElement).toBe(screen.getByRole('button', { name: 'Add a key for Back' }));
  });

  it('where it stops, only once it was asked; Escape never', async () => {
    const seat = await open();
    const stop = screen.getByRole('heading', { name: 'Stop' }).closest('li')!;
    expect(within(stop).queryByRole('button', { name: /Escape/ })).toBeNull();
    press('Take Headset: its one button away from Stop');
    expect(screen.getByText(/is “Stop” now. It will stop no more/)).toBeTruthy();
    expect(seat.did).toEqual([]);
    press('Take it away');
    expect(seat.did).toEqual([['setKey', 'MediaPlayPause', null]]);
  });
});
