// @vitest-environment jsdom
import { act, cleanup, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { TONES, type SessionEvent, type ToneName } from '../../src/ports';
import { show, tell } from './rendering';
import { SQUAD_DAY_STATES } from './squadDayStates';
import { cue, heard, listen, phase, STATES } from './states';

afterEach(cleanup);
const now = () => screen.getByRole('region', { name: 'Now' }).textContent;
const tone = (name: ToneName): SessionEvent => ({ type: 'tone', name });
const tilt = (verdict: 'within' | 'outside'): SessionEvent => ({
  ...{ type: 'tilt', on: 'shin', degrees: verdict === 'within' ? 4 : 16, verdict },
});
const QUESTION = 'set/romanian-deadlift';

/** The words that a tone is told in, and what the session tells with it. */
const SEEN: Record<ToneName, { with: SessionEvent[]; words: RegExp }> = {
  listening: { with: [phase('listening'), listen(QUESTION)], words: /Say it now/ },
  heard: { with: [], words: /Heard/ },
  accepted: { with: [], words: /Noted/ },
  'not-understood': { with: [], words: /Say it again/ },
  countdown: { with: [phase('holding', 3)], words: /3 seconds/ },
  begin: { with: [phase('repeating', 5)], words: /Move/ },
  'not-stored': { with: [], words: /Not stored yet/ },
  halted: { with: [], words: /Stopped/ },
  upright: { with: [tilt('within')], words: /4°.*Shin within 10/ },
  tilted: { with: [tilt('outside')], words: /16°.*Shin tilted/ },
};

describe('ToneSign: every tone has a twin on the screen', () => {
  it.each(TONES)('"%s" is told in words to those who cannot hear it', (name) => {
    const seat = show(STATES['run-settling']!);
    const { with: events, words } = SEEN[name];
    expect(now()).not.toMatch(words);
    tell(seat, ...(name === 'halted' ? [tone(name)] : [...events, tone(name)]));
    expect(now()).toMatch(words);
  });

  it.each(['heard', 'accepted', 'not-understood', 'not-stored'] as const)(
    'the sign for "%s" stands until something else begins',
    (name) => {
      const seat = show(STATES['run-check-open']!);
      tell(seat, tone(name));
      expect(now()).toMatch(SEEN[name].words);
      tell(seat, phase('repeating', 3));
      expect(now()).not.toMatch(SEEN[name].words);
    },
  );

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
