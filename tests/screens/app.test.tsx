// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import { NO_REPLY } from '../../src/domain/hearing/reply';
import { createSeatStore } from '../../src/screens/seat';
import { STATE } from './fakeSeat';
import { show } from './rendering';
import { STATES } from './states';

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});
const heading = () => screen.getByRole('heading', { level: 1 });

it('goes from the people to the gate, the run and the finish, and the keyboard goes with it', async () => {
  const seat = show({ where: 'people' });
  expect(document.activeElement).toBe(heading());
  act(() => seat.patch({ where: 'gate' }));
  expect(document.activeElement).toBe(heading());
  act(() => seat.patch(STATES['run-cueing']!));
  expect(heading().textContent).toBe('Romanian deadlift');
  expect(document.activeElement).toBe(screen.getByRole('main'));
  act(() => seat.patch(STATES['finished-working']!));
  await screen.findByRole('heading', { name: 'Session done' });
  expect(document.activeElement).toBe(heading());
});

it('a screen that breaks says so, keeps Stop in reach and offers to reload', () => {
  vi.spyOn(console, 'error').mockImplementation(() => undefined);
  const broken = structuredClone(STATES['run-cueing']!);
  Reflect.deleteProperty(broken.view, 'decisions');
  const seat = show(broken);
  expect(screen.getByRole('alert').textContent).toContain('every answer is in the record');
  expect(screen.getByRole('link', { name: 'Reload' }).getAttribute('href')).toBe('./');
  fireEvent.click(screen.getByRole('button', { name: 'Stop the session' }));
  expect(seat.replies()).toEqual([{ ...NO_REPLY, command: 'stop' }]);
});

it('the seat tells its subscribers of each change, until they leave', () => {
  const store = createSeatStore(STATE);
  const told = vi.fn();
  const leave = store.subscribe(told);
  expect(store.state()).toBe(STATE);
  store.patch({ voice: 'none' });
  expect(store.state()).toEqual({ ...STATE, voice: 'none' });
  leave();
  store.patch({ voice: 'speaks' });
  expect(told).toHaveBeenCalledTimes(1);
});
