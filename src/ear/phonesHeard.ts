import type { Look } from './recognising';

/** Talk as long as a word; less may be a noise. */
const WORD_SECONDS = 0.3;
/** Phones were lost where a later look hears the last of them so much earlier. */
const LOST_SECONDS = 0.1;

/**
 * Until when phones were heard. Of speech that goes on in noise a look now and then hears none at
 * all, though the look before it did: such a look proves no silence.
 */
export class PhonesHeard {
  private untilSeconds = 0;

  /** @param nowSeconds the end of the sound that was looked at. */
  note({ talk }: Look, nowSeconds: number): void {
    if (talk === null || talk.beganSeconds - talk.endedSeconds < WORD_SECONDS) return;
    this.untilSeconds = Math.max(this.untilSeconds, nowSeconds - talk.endedSeconds);
  }

  /** Whether a look does not hear phones that one before it heard. */
  lostIn({ talk }: Look, nowSeconds: number): boolean {
    const until = talk === null ? 0 : nowSeconds - talk.endedSeconds;
    return until < this.untilSeconds - LOST_SECONDS;
  }

  /** What is heard from now on is another's, or another reply. */
  forget(): void {
    this.untilSeconds = 0;
  }

  secondsAgo(nowSeconds: number): number {
    return nowSeconds - this.untilSeconds;
  }
}
