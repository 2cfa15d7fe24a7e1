import type { PromptId } from '../domain/script';
import type { Clock } from '../ports';

/** An invented athlete: what the recorded coach says of it, one line a question. */
export const INVENTED_REPLIES = [
  'knees forward',
  'knees forward',
  'clean set',
  'clean set',
  'hips first',
  'clean set',
] as const;
/** What is said once the lines above are used up. */
const AFTERWARDS = 'clean set';

/** People begin to answer about this long after the tone. */
const ANSWERS_AFTER_MILLISECONDS = 1500;

export interface Sound {
  samples: Float32Array<ArrayBuffer>;
  sampleRate: number;
}

/**
 * The coach of a rehearsal: answers each question by a recorded voice, which goes into the ear
 * and out of the loudspeaker.
 */
export class RehearsalPartner {
  private readonly left: string[] = [...INVENTED_REPLIES];
  private timer: unknown = null;

  constructor(
    private readonly parts: {
      clock: Clock;
      make: (text: string) => Promise<Sound>;
      feed: (sound: Sound) => void;
      play: (sound: Sound) => void;
    },
  ) {}

  /** A question opened. */
  asked(prompt: PromptId): void {
    const { clock } = this.parts;
    clock.clearTimeout(this.timer);
    const text = this.answerAt(prompt);
    this.timer = clock.setTimeout(() => void this.speak(text), ANSWERS_AFTER_MILLISECONDS);
  }

  leave(): void {
    this.parts.clock.clearTimeout(this.timer);
  }

  private answerAt(prompt: PromptId): string {
    if (prompt === 'confirm') return 'yes';
    if (prompt === 'pain/how-much') return 'no pain';
    if (prompt === 'pain/kind') return 'known';
    return this.left.shift() ?? AFTERWARDS;
  }

  private async speak(text: string): Promise<void> {
    const sound = await this.parts.make(text);
    this.parts.play(sound);
    this.parts.feed(sound);
  }
}
