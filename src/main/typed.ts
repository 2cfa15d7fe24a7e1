import type { PromptId } from '../domain/script';
import type { Ear, Hearing } from '../ports';

/** Replies typed on the page: words that are surely those. */
export interface Typed extends Ear {
  type(text: string): void;
}

export function createTyped(): Typed {
  const listeners = new Set<(hearing: Hearing) => void>();
  let prompt: PromptId = 'idle';
  return {
    attend: (next) => {
      prompt = next;
    },
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    type: (text) => {
      if (text.trim() === '') return;
      for (const listener of [...listeners])
        listener({ type: 'words', text, confidence: 1, prompt });
    },
  };
}
