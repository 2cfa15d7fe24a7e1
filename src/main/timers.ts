/** A timer to start; `milliseconds` null takes it back. */
export interface TimerWanted {
  id: number;
  milliseconds: number | null;
}

/** The timer of that id has run out. */
export interface TimerDue {
  id: number;
}

/** The worker in which time is waited for. */
const running = new Map<number, ReturnType<typeof setTimeout>>();

self.onmessage = ({ data: { id, milliseconds } }: MessageEvent<TimerWanted>) => {
  clearTimeout(running.get(id));
  running.delete(id);
  if (milliseconds === null) return;
  const ran = () => {
    running.delete(id);
    self.postMessage({ id } satisfies TimerDue);
  };
  running.set(id, setTimeout(ran, milliseconds));
};
