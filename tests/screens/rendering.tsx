import axe from 'axe-core';
import { act, cleanup, configure, render } from '@testing-library/react';
import type { SessionEvent } from '../../src/ports';
import { App } from '../../src/screens/App';
// A session fetches it ahead: on its way at the end of a file it would be lost to those after it.
import '../../src/screens/finished/FinishedScreen';
import type { SeatState } from '../../src/screens/seat';
import { fakeSeat, type FakeSeat } from './fakeSeat';

// Screens that come in files of their own take seconds on a busy machine.
configure({ asyncUtilTimeout: 15_000 });

/** Shows the app as it is in that state; the seat remembers what is done on it. */
export function show(state: Partial<SeatState>, answer: string | null = null): FakeSeat {
  cleanup();
  const seat = fakeSeat(state, answer);
  render(<App seat={seat} />);
  return seat;
}

/** What the timeline tells next. */
export function tell(seat: FakeSeat, ...events: SessionEvent[]): void {
  act(() => events.forEach((event) => seat.show({ ...event, atSeconds: seat.nowSeconds() })));
}

/** What axe finds wrong on the page; contrast is computed from the style sheets instead. */
export async function faultsOfPage(): Promise<string[]> {
  const { violations } = await axe.run(document.body, {
    rules: { 'color-contrast': { enabled: false } },
  });
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
}
