import type { Ear, EarTrouble, Hearing } from '../ports';

/** The microphone's door: hears nothing, and tells a session that runs why it stays shut. */
export interface Door extends Ear {
  shut(why: EarTrouble): void;
}

export function createDoor(): Door {
  const listeners = new Set<(hearing: Hearing) => void>();
  return {
    attend: () => undefined,
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    shut: (why) => {
      for (const listener of [...listeners]) listener({ type: 'deaf', why });
    },
  };
}
