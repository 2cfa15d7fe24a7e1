/** Sound goes on being heard for so long without what the look finds; then it waits. */
const LONGEST_AWAY_SECONDS = 0.4;

/** A look that is had in another thread, so that stop words are looked for meanwhile. One at a time. */
export class LookAway<Seen> {
  private sentAtSeconds = 0;
  private done: Promise<void> | null = null;
  private come: (() => Seen) | null = null;

  /** Whether one is out, or has come back and was not taken. */
  get isOut(): boolean {
    return this.done !== null;
  }

  send(look: Promise<Seen>, nowSeconds: number): void {
    this.sentAtSeconds = nowSeconds;
    this.done = look.then(
      (seen) => {
        this.come = () => seen;
      },
      (problem: unknown) => {
        this.come = () => {
          throw problem;
        };
      },
    );
  }

  /** What has come back, once; null where nothing has. Rejects where the look failed. */
  async back(nowSeconds: number): Promise<Seen | null> {
    if (nowSeconds - this.sentAtSeconds >= LONGEST_AWAY_SECONDS) await this.done;
    const { come } = this;
    if (come === null) return null;
    this.come = null;
    this.done = null;
    return come();
  }
}
