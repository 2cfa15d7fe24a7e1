// @vitest-environment jsdom
import { act, cleanup, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import type { SessionEvent, ToneName } from '../../src/ports';
import { show, tell } from './rendering';
import { SQUAD_DAY_STATES } from './squadDayStates';
import { cue, heard, phase, STATES } from './states';

afterEach(cleanup);
const now = () => screen.getByRole('region', { name: 'Now' }).textContent;
const tone = (name: ToneName): SessionEvent => ({ type: 'tone', name });

/** Tones that tell what no phase, count or tilt beside them tells, in the words of the screen. */
const SEEN = [
  ['heard', /Heard/],
  ['accepted', /Noted/],
  ['not-understood', /Say it again/],
  ['not-stored', /Not stored yet/],
  ['halted', /Stopped/],
] as const;

describe('ToneSign: a tone that tells something by itself has a twin on the screen', () => {
  it.each(SEEN)('"%s" is told in words to those who cannot hear it', (name, words) => {
    const seat = show(STATES['run-settling']!);
    expect(now()).not.toMatch(words);
    tell(seat, tone(name));
    expect(now()).toMatch(words);
  });

  it.each(SEEN)('the sign for "%s" stands until something else begins', (name, words) => {
    const seat = show(STATES['run-check-open']!);
    tell(seat, tone(name));
    expect(now()).toMatch(words);
    tell(seat, phase('repeating', 3));
    expect(now()).not.toMatch(words);
  });

  it('"Heard" is over where it comes to nothing', () => {
    const seat = show(STATES['run-check-open']!);
    tell(seat, tone('heard'));
    tell(seat, { type: 'heard-nothing' });
    expect(now()).not.toContain('Heard');
  });

  it('"Heard" is over once the whole of it is told, whatever it was', () => {
    const seat = show(STATES['run-check-open']!);
    tell(seat, tone('heard'));
    tell(seat, heard('knees forward and then some', 'ignore', null));
    expect(now()).not.toContain('Heard');
  });

  it('a screen reader is told where there is no voice, and else hears the tone itself', () => {
    const seat = show(STATES['run-check-open']!);
    tell(seat, tone('heard'));
    const sign = () => screen.getByText('Heard', { selector: '.tone-sign' });
    expect(sign().getAttribute('aria-live')).toBe('off');
    act(() => seat.patch({ voice: 'none' }));
    expect(sign().getAttribute('aria-live')).toBe('polite');
  });

  it('is there between two people', async () => {
    const seat = show(SQUAD_DAY_STATES['squad-day-between']!);
    await screen.findByRole('heading', { level: 1, name: /^Next/ });
    tell(seat, cue('Next is Quib Marn.'), tone('heard'));
    expect(screen.getByRole('main').textContent).toContain('Heard');
  });
});
