// @vitest-environment jsdom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createBrowserClock } from '../../src/main/browserClock';

let inTime = globalThis.setTimeout;

/** A worker whose timers run at their time. */
const goodTimers = () => {
  let tell: (event: { data: { id: number } }) => void = () => undefined;
  return {
    addEventListener: (_: string, run: typeof tell) => (tell = run),
    postMessage: ({ id, milliseconds }: { id: number; milliseconds: number | null }) => {
      if (milliseconds !== null) inTime(() => tell({ data: { id } }), milliseconds);
    },
  } as unknown as Worker;
};

describe('the clock of the browser', () => {
  const pageTimeout = vi.fn<(run: () => void, milliseconds: number) => number>();
  beforeEach(() => {
    vi.useFakeTimers();
    inTime = globalThis.setTimeout;
    // What a hidden page does: its own timers come a second late.
    vi.spyOn(window, 'setTimeout').mockImplementation(((run: () => void, milliseconds = 0) => {
      pageTimeout(run, milliseconds);
      return inTime(run, milliseconds + (late ? 1000 : 0));
    }) as never);
  });
  let late = false;
  afterEach(() => {
    late = false;
    vi.restoreAllMocks();
    vi.useRealTimers();
  });

  it('runs a timer at its time in a page that nobody looks at, and once', () => {
    late = true;
    const run = vi.fn();
    createBrowserClock(goodTimers()).setTimeout(run, 300);
    vi.advanceTimersByTime(299);
    expect(run).not.toHaveBeenCalled();
    vi.advanceTimersByTime(1);
    expect(run).toHaveBeenCalledTimes(1);
    vi.advanceTimersByTime(5000);
    expect(run).toHaveBeenCalledTimes(1);
  });

  it('goes on where the worker is gone', () => {
    const run = vi.fn();
    const silent = { addEventListener: vi.fn(), postMessage: vi.fn() } as unknown as Worker;
    createBrowserClock(silent).setTimeout(run, 300);
    createBrowserClock(null).setTimeout(run, 300);
    vi.advanceTimersByTime(300);
    expect(run).toHaveBeenCalledTimes(2);
  });

  it('runs nothing that was taken back', () => {
    const run = vi.fn();
    const clock = createBrowserClock(goodTimers());
    clock.clearTimeout(clock.setTimeout(run, 300));
    clock.clearTimeout(undefined);
    vi.advanceTimersByTime(5000);
    expect(run).not.toHaveBeenCalled();
  });
});
