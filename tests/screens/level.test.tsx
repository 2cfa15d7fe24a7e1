// @vitest-environment jsdom
import { cleanup, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import type { SessionEvent } from '../../src/ports';
import type { LevelState } from '../../src/screens/level/state';
import { faultsOfPage, show, tell } from './rendering';
import { listen, phase, STATES } from './states';

afterEach(cleanup);

type Tilt = Extract<SessionEvent, { type: 'tilt' }>;
const tilt = (degrees: number | null, verdict: Tilt['verdict'], on: Tilt['on'] = 'shin'): Tilt => ({
  ...{ type: 'tilt', on, degrees, verdict },
});
const now = () => screen.getByRole('region', { name: 'Now' });
const said = () => within(now()).getByRole('status').textContent;
const atTheKnee = () => {
  const level: LevelState = { on: 'shin', stage: 'set', trouble: null };
  const seat = show({ ...STATES['run-repeating'], level });
  tell(seat, phase('pausingAtKnee', 2));
  return seat;
};

describe('the level on the run screen', () => {
  it.each([
    [4, 'within', /4°.*Shin within 10/, 'held'],
    [9, 'close', /9°.*Shin close to 10: you decide/, 'question'],
    [22, 'outside', /22°.*Shin tilted/, 'lost'],
    [null, 'moving', /Moving: no angle/, 'not-tested'],
    [null, 'lost', /The phone tells no angle/, 'notice'],
  ] as const)('%s degrees, %s: by number, word and shape', (degrees, verdict, words, shape) => {
    const seat = atTheKnee();
    tell(seat, tilt(degrees, verdict));
    expect(now().textContent).toMatch(words);
    expect(now().querySelector(`.tilt .shape-${shape}`)).not.toBeNull();
    tell(seat, phase('repeating', 3));
    expect(now().textContent).not.toMatch(words);
  });

  it('a screen reader is told what it comes to, and never the numbers', async () => {
    const seat = atTheKnee();
    // It stands there before there is anything to tell.
    expect(said()).toBe('');
    tell(seat, tilt(null, 'moving'));
    expect(said()).toBe('');
    tell(seat, tilt(4, 'within'));
    expect(said()).toBe('Shin within 10');
    tell(seat, tilt(5, 'within'), tilt(4, 'within'));
    expect(said()).toBe('Shin within 10');
    tell(seat, tilt(19, 'outside'));
    expect(said()).toBe('Shin tilted');
    expect(await faultsOfPage()).toEqual([]);
  });

  it('the arm has its angle and no verdict', () => {
    const seat = show(STATES['run-repeating']!);
    tell(seat, phase('holding', 4), tilt(163, 'read', 'upper-arm'));
    expect(now().textContent).toMatch(/163°.*Arm, by the phone/);
  });

  it('what it offers is shown in its own words, not as something heard', () => {
    const seat = atTheKnee();
    const words = 'Shin within ten degrees by the phone: was it a pass?';
    tell(seat, phase('confirming'), { type: 'cue', text: words, seconds: 3 }, listen('confirm'));
    expect(now().querySelector('.offer')?.textContent?.trim()).toBe(words);
    expect(screen.getByRole('button', { name: /Yes/ })).toBeTruthy();
  });
});

describe('the level at the gate', () => {
  const at = (level: LevelState) => show({ level });
  const radio = (name: RegExp) => screen.getByRole('radio', { name }) as HTMLInputElement;

  it('is off at first, and is asked for inside the tap', () => {
    const seat = show({});
    expect(radio(/^Off/).checked).toBe(true);
    expect(screen.queryByRole('button', { name: /two steps/ })).toBeNull();
    fireEvent.click(radio(/On the shin/));
    fireEvent.click(radio(/On an upper arm/));
    expect(seat.did).toEqual([
      ['level.choose', 'shin'],
      ['level.choose', 'upper-arm'],
    ]);
  });

  it('tells how to strap it, and is set by one button', () => {
    const seat = at({ on: 'shin', stage: 'ready', trouble: null });
    expect(document.body.textContent).toContain('Strap it along the shin, its long edge upright.');
    fireEvent.click(screen.getByText('Set it in two steps'));
    expect(seat.did).toEqual([['level.set']]);
  });

  it.each([
    ['first', 'Step 1 of 2'],
    ['turning', 'Step 2 of 2'],
    ['second', 'Step 2 of 2'],
  ] as const)('at %s it tells the step, which a touch takes', (stage, words) => {
    const seat = at({ on: 'upper-arm', stage, trouble: null });
    expect(document.body.textContent).toContain(words);
    fireEvent.click(screen.getByText(/take it now/));
    expect(seat.did).toEqual([['level.take']]);
  });

  it('set, it says so, and can be set anew or switched off', async () => {
    const seat = at({ on: 'shin', stage: 'set', trouble: null });
    expect(document.body.textContent).toContain('Set for the next session.');
    fireEvent.click(screen.getByText('Set it anew'));
    fireEvent.click(radio(/^Off/));
    expect(seat.did).toEqual([['level.set'], ['level.choose', null]]);
    expect(await faultsOfPage()).toEqual([]);
  });

  it.each([
    ['insecure', 'https'],
    ['denied', 'Allow it in the browser’s settings'],
    ['no-sensor', 'Everything else works without it'],
    ['dropped-out', 'Set it anew'],
    ['slipped', 'Tighten the strap'],
  ] as const)('%s: says what to do', (trouble, words) => {
    at({ on: null, stage: 'off', trouble });
    expect(screen.getByRole('alert').textContent).toContain(words);
  });
});
