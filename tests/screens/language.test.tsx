// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen } from '@testing-library/react';
import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import type { SeatState } from '../../src/screens/seat';
import { STATE, viewAfter } from './fakeSeat';
import { faultsOfPage, show } from './rendering';

const book = loadBook('scripts-cues', 'es');
const VOICES: SeatState['voices'] = { device: [], speaks: null, wordsPerMinute: null };
const SPANISH: Partial<SeatState> = {
  book,
  routines: [{ id: 'hinge', name: 'Bisagra' }],
  language: { chosen: 'es', all: ['en', 'es'], isHeard: false, notFetched: null },
  ear: { state: 'failed', progress: null },
  voices: VOICES,
};
const spoken: Partial<SeatState> = {
  ...SPANISH,
  voices: {
    device: [{ id: 'monica', name: 'Mónica', quality: 'plain' }],
    speaks: 'monica',
    wordsPerMinute: null,
  },
};

beforeAll(() => {
  document.documentElement.lang = 'es';
  document.title = 'Sayso';
});
afterEach(cleanup);
const text = () => document.body.textContent;

describe('the language at the gate', () => {
  it('is chosen by the name that its speakers know', () => {
    const seat = show({});
    expect(screen.getByRole<HTMLInputElement>('radio', { name: 'English' }).checked).toBe(true);
    fireEvent.click(screen.getByRole('radio', { name: 'Español' }));
    expect(seat.did).toEqual([['chooseLanguage', 'es']]);
  });

  it('that the ear hears says nothing of other ways', () => {
    show({});
    expect(text()).not.toContain('hears English only');
    expect(screen.getByRole('button', { name: /begin by voice/ })).toBeTruthy();
  });

  it('that no ear hears says so, what there is in it, and how to answer', () => {
    show(SPANISH);
    expect(text()).toContain('In Spanish there is: Bisagra.');
    expect(text()).toContain('hears English only');
    expect(text()).toContain('by typed words, or by touch, keys and pedal');
  });

  it('leaves the words of the screen English for a screen reader, and names what is not', () => {
    show(SPANISH);
    expect(screen.getByRole('main').lang).toBe('en');
    expect(screen.getByRole('radio', { name: 'Bisagra' }).closest('label')?.innerHTML).toContain(
      '<span lang="es">Bisagra</span>',
    );
  });

  it('that no ear hears offers nothing that needs the ear', () => {
    const seat = show(SPANISH);
    for (const name of [
      /begin by voice/,
      /Watch a rehearsal/,
      /Try the microphone/,
      /Check my voice/,
    ])
      expect(screen.queryByRole('button', { name })).toBeNull();
    fireEvent.click(screen.getByRole('button', { name: /begin by touch/ }));
    expect(seat.did).toEqual([['begin', { routine: 'hinge', way: 'hands-on', listen: 'hands' }]]);
  });

  it('that the device has no voice for says that cues are shown', () => {
    vi.useFakeTimers();
    show(SPANISH);
    // They may come late.
    expect(text()).toContain('Looking for a Spanish voice on this device.');
    act(() => void vi.advanceTimersByTime(3000));
    expect(text()).toContain('This device has no Spanish voice, so every cue is shown');
    vi.useRealTimers();
  });

  it('that the device has a voice for says which', () => {
    show(spoken);
    expect(text()).toContain('Mónica speaks');
    expect(text()).not.toContain('no Spanish voice');
  });

  it('that could not be fetched says so and what to do', () => {
    show({ language: { chosen: 'en', all: ['en', 'es'], isHeard: true, notFetched: 'es' } });
    expect(text()).toContain('Spanish could not be fetched. Check the connection');
  });

  it('has nothing that axe objects to', async () => {
    show(SPANISH);
    expect(await faultsOfPage()).toEqual([]);
    show(spoken);
    expect(await faultsOfPage()).toEqual([]);
  });
});

describe('captions during a session', () => {
  it('are marked as of the language that is spoken, for a screen reader', () => {
    show({
      ...spoken,
      where: 'run',
      view: viewAfter([
        { type: 'step', prompt: 'set/bell-hinge', set: 1, of: 2, side: null, rung: 2 },
        { type: 'phase', phase: 'cueing', seconds: null },
        { type: 'cue', text: 'Suelta el aire, largo.', seconds: 2 },
      ]),
    });
    expect(screen.getByText('Suelta el aire, largo.').closest('[lang]')?.getAttribute('lang')).toBe(
      'es',
    );
  });
});

describe('typed replies during a session', () => {
  const running: Partial<SeatState> = {
    ...SPANISH,
    where: 'run',
    view: viewAfter([
      { type: 'step', prompt: 'set/bell-hinge', set: 1, of: 2, side: null, rung: 2 },
      { type: 'listen', prompt: 'set/bell-hinge' },
    ]),
  };
  const field = () => screen.getByRole<HTMLInputElement>('textbox', { name: /Type your answer/ });

  it('are told by a few that fit the question, in the words of the book', () => {
    show(running);
    expect(screen.getByText(/Type your answer/).textContent).toContain(
      'pasa · limitada · espalda arqueada · peso adelante · dolor',
    );
    show({ ...running, view: viewAfter([{ type: 'listen', prompt: 'pain/how-much' }]) });
    expect(screen.getByText(/Type your answer/).textContent).toContain('cero · tres · diez');
    expect(text()).not.toContain('You can say');
  });

  it('are sent as they are written, and the field is empty again', () => {
    const seat = show(running);
    expect(field().lang).toBe('es');
    fireEvent.change(field(), { target: { value: 'rodillas adelante' } });
    fireEvent.click(screen.getByRole('button', { name: 'Send' }));
    expect(seat.did).toEqual([['type', 'rodillas adelante']]);
    expect(field().value).toBe('');
  });

  it('take their keys for themselves, but Escape is always stop', () => {
    const seat = show(running);
    fireEvent.keyDown(field(), { key: 'h' });
    expect(seat.did).toEqual([]);
    fireEvent.keyDown(field(), { key: 'Escape' });
    expect(seat.replies()).toMatchObject([{ command: 'stop' }]);
  });

  it('have no field where the ear hears the language', () => {
    show({ ...running, language: STATE.language });
    expect(screen.queryByRole('textbox')).toBeNull();
  });

  it('have nothing that axe objects to', async () => {
    show(running);
    expect(await faultsOfPage()).toEqual([]);
  });
});
