// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import type { OfflineState } from '../../src/screens/seat';
import { STATE } from './fakeSeat';
import { show } from './rendering';

afterEach(cleanup);
const stands = (change: Partial<OfflineState>) => ({ ...STATE.offline, ...change });
const line = (words: string | RegExp) =>
  screen.getAllByRole('status').filter(({ textContent }) => textContent?.match(words));

describe('the gate says whether a session can do without network', () => {
  it.each([
    ['ready', 'Works without network from now on.'],
    ['full', /No room .* needs the network next time/],
    ['incomplete', /Not all .* has arrived/],
    ['never', /needs the network each time/],
  ] as const)('%s', (state, words) => {
    show({ offline: stands({ state }) });
    expect(line(words)).toHaveLength(1);
    expect(screen.queryByRole('progressbar')).toBeNull();
  });

  it('names what is fetched now, and how far all of it is', () => {
    show({ offline: stands({ state: 'fetching', what: 'voice', progress: 0.6 }) });
    expect(line('Not yet without network: the voice.')).toHaveLength(1);
    const bar = screen.getByRole<HTMLProgressElement>('progressbar', { name: /without network/ });
    expect(bar.value).toBe(0.6);
  });

  it('says nothing before it knows', () => {
    show({ offline: stands({ state: 'unknown' }) });
    expect(line(/network/)).toHaveLength(0);
  });
});

describe('a new version', () => {
  it('is offered at the gate and taken by one tap', () => {
    const seat = show({ offline: stands({ newVersion: 'waiting' }) });
    expect(line('A new version of Sayso is here.')).toHaveLength(1);
    fireEvent.click(screen.getByRole('button', { name: 'Take the new version' }));
    expect(seat.did).toEqual([['takeNewVersion']]);
  });

  it('that other pages hold back says what to do', () => {
    const seat = show({ offline: stands({ newVersion: 'waiting' }) });
    act(() => seat.patch({ offline: stands({ newVersion: 'other-pages' }) }));
    expect(line('Close its other pages first.')).toHaveLength(1);
  });

  it.each(['run', 'finished', 'voiceCheck'] as const)('is not offered in %s', (where) => {
    show({ where, offline: stands({ newVersion: 'waiting' }) });
    expect(screen.queryByText(/new version/)).toBeNull();
  });
});
