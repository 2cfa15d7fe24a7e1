// @vitest-environment jsdom
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { durationsOf } from '../../src/cues/durationsOf';
import { loadBook } from '../../src/cues/fromFolder';
import type { Cues } from '../../src/cues/page';
import { createPageLock } from '../../src/main/lock/pageLock';
import type { Seat } from '../../src/screens/seat';

const cuesOf = (language: string): Cues => ({
  book: loadBook('scripts-cues', language),
  lexicon: {},
  durations: durationsOf(language),
});

vi.mock('../../src/cues/page', () => ({ LANGUAGES: ['en', 'es'], ownCues: cuesOf('en') }));

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** Time goes on until the page shows this; fails after ten minutes. */
async function until(seat: Seat, shows: () => boolean): Promise<void> {
  for (let second = 0; second < 600 && !shows(); second++) await vi.advanceTimersByTimeAsync(1000);
  expect(shows(), JSON.stringify(seat.state().view.prompt)).toBe(true);
}

it('the page in a language without an ear or a voice runs by captions and typed words', async () => {
  const { createSeat } = await import('../../src/main/seat');
  const seat = createSeat({ cues: cuesOf('es'), missing: null }, createPageLock());
  await vi.advanceTimersByTimeAsync(100);
  expect(seat.state().language).toEqual({
    chosen: 'es',
    all: ['en', 'es'],
    isHeard: false,
    notFetched: null,
  });
  expect(seat.state().routines).toEqual([{ id: 'hinge', name: 'Bisagra' }]);

  seat.begin({ routine: 'hinge', listen: 'hands' });
  // What runs a session is fetched behind the gate, in true time.
  await vi.waitUntil(() => seat.state().where === 'run', { timeout: 10_000 });
  const cues = new Set<string>();
  seat.subscribe(() => cues.add(seat.state().view.cue?.text ?? ''));
  await until(seat, () => seat.state().view.phase === 'listening');
  expect([...cues]).toEqual(
    expect.arrayContaining(['La primera prueba es la bisagra libre.', '¿Qué has notado?', 'uno']),
  );
  expect(seat.state().view.troubles.map(({ what }) => what)).toContain('no-voice');

  seat.type('las rodillas se fueron hacia adelante');
  await until(seat, () => seat.state().view.step?.prompt === 'set/bell-hinge');
  expect(seat.state().view.decisions.at(-1)?.because).toBe(
    'Por lo que has notado, en la bisagra de cadera empezamos con la bisagra con pesa.',
  );

  seat.type('para');
  await vi.advanceTimersByTimeAsync(2000);
  expect(seat.state().view.halted).toBe(true);
  await until(
    seat,
    () => seat.state().view.phase === 'confirming' || cues.has('¿Termino aquí la sesión?'),
  );
  await vi.advanceTimersByTimeAsync(4000);
  seat.type('sí');
  await until(seat, () => seat.state().where === 'finished');
  expect(seat.state().view.end?.reason).toBe('stopped');
  seat.leave();
}, 60_000);
