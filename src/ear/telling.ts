import type { PromptId } from '../domain/script';
import type { Hearing } from '../ports';
import type { HeardWords } from './recognising';

/** What was told of the speech that is being heard; nothing of it is told twice. */
export class Telling {
  /** The words that were told of it last. */
  told: string | null = null;
  private toldSoFar: string | null = null;
  /** Whether an onset was told and nothing yet of what became of it. */
  private isAwaited = false;

  constructor(private readonly tell: (hearing: Hearing) => void) {}

  /** What is told from now on is of something else. */
  begin(): void {
    this.told = null;
    this.toldSoFar = null;
  }

  onset(): void {
    this.isAwaited = true;
    this.tell({ type: 'onset' });
  }

  nothing(): void {
    if (this.isAwaited) this.tell({ type: 'nothing' });
    this.isAwaited = false;
  }

  /** A sure reply that is waited for, since more of it may follow. */
  soFar({ text, confidence }: HeardWords, prompt: PromptId): void {
    if (text === this.told || text === this.toldSoFar) return;
    this.toldSoFar = text;
    this.tell({ type: 'so-far', ...{ text, confidence, prompt } });
  }

  /** @param beganSecondsAgo from their first phone until now, where it is known. */
  words(
    { text, confidence, other, phones }: HeardWords,
    prompt: PromptId,
    beganSecondsAgo?: number | null,
  ): void {
    if (!this.isAwaited && this.told === null) this.onset();
    this.isAwaited = false;
    this.told = text;
    this.tell({
      type: 'words',
      ...{ text, confidence, prompt },
      ...(other && { other }),
      ...(phones && { phones }),
      ...(beganSecondsAgo != null && { beganSecondsAgo }),
    });
  }
}
