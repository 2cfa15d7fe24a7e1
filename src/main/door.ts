import type { Ear, EarTrouble, Hearing } from '../ports';

/** The microphone's door: hears nothing, and tells a session why it stays shut. */
export interface Door extends Ear {
  /** It may be opened, or nobody wants it. */
  open(): void;
  /** Told to the session that runs, and to one that only begins now. */
  shut(why: EarTrouble): void;
}

export function createDoor(): Door {
  const listeners = new Set<(hearing: Hearing) => void>();
  let shutBy: EarTrouble | null = null;
  return {
    attend: () => undefined,
    listen: (listener) => {
      listeners.add(listener);
      if (shutBy !== null) listener({ type: 'deaf', why: shutBy });
      return () => listeners.delete(listener);
    },
    open: () => {
      shutBy = null;
    },
    shut: (why) => {
      shutBy = why;
      for (const listener of [...listeners]) listener({ type: 'deaf', why });
    },
  };
}
