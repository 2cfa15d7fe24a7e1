import type { Cancel, Voice } from '../ports';

/** What a voice tells of the line it was given; what comes late or twice is dropped. */
export interface Told {
  started(): void;
  ended(how: 'spoken' | 'failed'): void;
}

/**
 * The manners of every voice: `started` and `ended` once at most, nothing after a cancel, and
 * one line at a time: a new line silences the one before, whose end is told as failed, so that
 * nobody waits for it. `begin` starts to speak and returns what silences it.
 */
export const oneAtATime = (begin: (text: string, told: Told) => Cancel): Voice['say'] => {
  let interrupt: Cancel | null = null;
  return (text, { started, ended }) => {
    interrupt?.();
    let state: 'waiting' | 'speaking' | 'over' = 'waiting';
    let silence: Cancel | null = null;
    const over = (): boolean => {
      if (state === 'over') return false;
      state = 'over';
      if (interrupt === interrupted) interrupt = null;
      return true;
    };
    const interrupted = () => {
      if (!over()) return;
      silence?.();
      ended('failed');
    };
    interrupt = interrupted;
    silence = begin(text, {
      started() {
        if (state !== 'waiting') return;
        state = 'speaking';
        started?.();
      },
      ended(how) {
        if (over()) ended(how);
      },
    });
    return () => {
      if (over()) silence?.();
    };
  };
};
