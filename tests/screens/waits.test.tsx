// @vitest-environment jsdom
import { screen } from '@testing-library/react';
import { expect, it } from 'vitest';
import type { SessionEvent } from '../../src/ports';
import { show, tell } from './rendering';

const PAUSED: SessionEvent = { type: 'phase', phase: 'paused', seconds: null };
const why = (what: 'asleep' | 'interrupted'): SessionEvent => ({
  type: 'trouble',
  what,
  say: null,
});
const status = () => screen.getByRole('status', { name: '' }).textContent;

it.each([
  ['asleep', /asleep.*Resume/],
  ['interrupted', /a call perhaps.*Resume/],
] as const)('a session that waits since it was %s says so, until it goes on', (what, words) => {
  const seat = show({ where: 'run' });
  tell(seat, why(what), PAUSED);
  expect(status()).toMatch(words);
  tell(seat, { type: 'phase', phase: 'asking', seconds: null });
  expect(status()).not.toMatch(words);
});

it('a call that has the microphone is told once', () => {
  const seat = show({
    where: 'run',
    microphone: { state: 'interrupted', level: 0, hearsWell: 'unknown' },
  });
  tell(seat, why('interrupted'), PAUSED);
  expect(status()?.match(/a call perhaps/g)).toHaveLength(1);
});
