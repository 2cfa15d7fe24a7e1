/** What the bench asks of its page (page.ts), and what it is answered. Times in milliseconds. */
export interface OnThePage {
  /** Starts the ear, where none runs, and plugs in a microphone of this rate; null: the device's own. */
  start(sampleRate: number | null): Promise<Started>;
  /** Plays the sound at this address into the microphone, at this prompt, and listens until its end. */
  hear(asked: { address: string; prompt: string; endSeconds: number }): Promise<HeardOnPage>;
  /** How long each switch of the question holds the page: each prompt for the first time, then again. */
  switches(): { first: number[]; again: number[] };
  /** In a worker: compiling each prompt's replies, and scoring a part of each sound at its prompt. */
  score(
    asked: { address: string; prompt: string; fromSeconds: number; toSeconds: number }[],
  ): Promise<Scored>;
  /** Feeds the sound at this address so many times, past the microphone. Tells how many were heard. */
  feed(address: string, replies: number): Promise<number>;
  /** Frames of the page since the last call. */
  frames(): Frames;
}

export interface Started {
  sampleRate: number;
  /** From the start of the worker until it hears; next to nothing where it ran already. */
  readyMilliseconds: number;
}

export interface HeardOnPage {
  told: { text: string; confidence: number; afterMilliseconds: number }[];
}

export interface Scored {
  compileMilliseconds: number[];
  scoreMilliseconds: number[];
  lookMilliseconds: number[];
}

export interface Frames {
  seconds: number;
  drawn: number;
  /** Frames that should have been drawn meanwhile and were not. */
  dropped: number;
  longestMilliseconds: number;
}
