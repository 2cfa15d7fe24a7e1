import type { Grammar } from '../domain/hearing/grammar';
import type { Hearing } from '../ports';
import { ACTS_FROM, ASKS_FROM } from './confidence';
import { FRAME, type Detector } from './detecting';
import type { Lexicon } from './lexicon';
import { LONGEST_SECONDS, type HeardWords, type Recogniser } from './recognising';
import {
  COMBINED_SILENCE_SECONDS,
  secondsOf,
  Segmenter,
  SINGLE_SILENCE_SECONDS,
} from './segmenting';

/** While somebody speaks, this often a look for words that must not wait. */
const LOOK_EVERY_SECONDS = 0.24;
/** Beyond this an urgent word is buried in other talk, and looks cost too much. */
const LOOKS_UNTIL_SECONDS = 4;
/** A first look into the silence, for urgent words alone. */
const FIRST_SILENCE_SECONDS = 0.06;
/** Silence after which the reply is worked out, so that it is ready when the silence is enough. */
const READY_SILENCE_SECONDS = 0.16;
/** With more sound waiting than this there is no time for looks. */
const BACKLOG_SECONDS = 0.2;
/** What was taken to have been said, and what it was made from. */
interface Look {
  heard: HeardWords | null;
  spokenFrames: number;
  silenceSeconds: number;
  /** Looks in a row that were sure of these words. */
  agreed: number;
}

/**
 * Sound in, hearings out: segments, recognises, and reports. Time is counted in samples, so the
 * same sound always gives the same hearings, except that looks are left out when sound piles up.
 */
export class Listening {
  private readonly segmenter = new Segmenter();
  private waiting = new Float32Array(0);
  private working: Promise<void> = Promise.resolve();
  private pendingSamples = 0;
  private attended: Grammar | null = null;
  /** What was attended when the open segment began. */
  private during: Grammar | null = null;
  private look: Look | null = null;
  private lookedAtSeconds = 0;
  private told: string | null = null;
  private lexicon: Lexicon;

  constructor(
    private readonly parts: {
      recogniser: Recogniser;
      detector: Detector;
      lexicon: Lexicon;
      /** Utterances told before the silence after them: "stop", "pause", "pain". */
      urgent: ReadonlySet<string>;
      tell: (hearing: Hearing) => void;
      /** Every frame: its loudness and whether it was speech, for the level shown. */
      measure?: (frame: Float32Array, speech: number) => void;
    },
  ) {
    this.lexicon = parts.lexicon;
  }

  /** Speech that begins from now on is understood by this grammar. */
  attend(grammar: Grammar): void {
    this.attended = grammar;
  }

  /** Words sound like this from now on; those that it leaves out as before. */
  sayBy(lexicon: Lexicon): void {
    this.lexicon = { ...this.lexicon, ...lexicon };
  }

  /** Takes in 16 kHz sound of any length. Resolves when it has been worked through. */
  push(samples: Float32Array): Promise<void> {
    this.pendingSamples += samples.length;
    this.working = this.working.then(() => this.take(samples));
    return this.working;
  }

  private async take(samples: Float32Array): Promise<void> {
    const sound = new Float32Array(this.waiting.length + samples.length);
    sound.set(this.waiting);
    sound.set(samples, this.waiting.length);
    let at = 0;
    for (; at + FRAME <= sound.length; at += FRAME) await this.frame(sound.slice(at, at + FRAME));
    this.waiting = sound.slice(at);
    this.pendingSamples -= samples.length;
  }

  private async frame(frame: Float32Array): Promise<void> {
    const speech = await this.parts.detector.speech(frame);
    this.parts.measure?.(frame, speech);
    switch (this.segmenter.push(frame, speech)) {
      case 'onset':
        this.during = this.attended;
        this.look = null;
        this.told = null;
        this.lookedAtSeconds = this.segmenter.seconds;
        return this.parts.tell({ type: 'onset' });
      case 'too-short':
        return this.parts.tell({ type: 'nothing' });
      case 'speaking':
        if (this.segmenter.seconds > LONGEST_SECONDS) return this.drop();
        return this.lookWhileSpeaking();
      case 'trailing':
        return this.closeWhenDone();
      case 'silent':
    }
  }

  private drop(): void {
    this.segmenter.drop();
    this.parts.tell({ type: 'nothing' });
  }

  private async lookWhileSpeaking(): Promise<void> {
    const { seconds } = this.segmenter;
    const due = seconds - this.lookedAtSeconds >= LOOK_EVERY_SECONDS;
    if (!due || this.behind || seconds > LOOKS_UNTIL_SECONDS || this.told !== null) return;
    await this.hear();
    this.tellUrgent();
  }

  private async closeWhenDone(): Promise<void> {
    const silence = this.segmenter.trailingSeconds;
    const looked = this.silenceLookedAt();
    if (silence >= READY_SILENCE_SECONDS && looked < READY_SILENCE_SECONDS) await this.hear();
    else if (silence >= FIRST_SILENCE_SECONDS && looked === 0 && !this.behind) await this.hear();
    this.tellUrgent();
    const heard = this.look?.heard ?? null;
    // A reply that is not sure may be the first half of something.
    const complete = heard !== null && heard.confidence >= ACTS_FROM && !heard.canGoOn;
    if (silence < (complete ? SINGLE_SILENCE_SECONDS : COMBINED_SILENCE_SECONDS)) return;
    this.segmenter.reset();
    if (heard === null) {
      if (this.told === null) this.parts.tell({ type: 'nothing' });
    } else if (heard.text !== this.told) this.tellWords(heard);
  }

  /** Silence that the last look saw after all that was said; 0 where more was said since. */
  private silenceLookedAt(): number {
    const { look } = this;
    return look?.spokenFrames === this.segmenter.spokenFrames ? look.silenceSeconds : 0;
  }

  /** Whether somebody is speaking, or has spoken and was not yet told. */
  get open(): boolean {
    return this.segmenter.open;
  }

  private get behind(): boolean {
    return secondsOf(this.pendingSamples) > BACKLOG_SECONDS;
  }

  /** An urgent word is told once two looks in a row have found the same and are sure of it. */
  private tellUrgent(): void {
    const { look } = this;
    if (this.told !== null || look === null || look.heard === null || look.agreed < 2) return;
    if (this.parts.urgent.has(look.heard.text)) this.tellWords(look.heard);
  }

  private tellWords(heard: HeardWords): void {
    this.told = heard.text;
    this.parts.tell({
      type: 'words',
      text: heard.text,
      confidence: heard.confidence,
      prompt: this.during?.prompt ?? 'idle',
      ...(heard.phones && { phones: heard.phones }),
    });
  }

  private async hear(): Promise<void> {
    const { lexicon } = this;
    const { recogniser } = this.parts;
    const { spokenFrames, trailingSeconds, seconds } = this.segmenter;
    const before = this.look;
    const heard =
      this.during && (await recogniser.hear(this.segmenter.sound(), this.during, lexicon));
    // A stop word acts at the lowest bar.
    const bar = heard !== null && this.parts.urgent.has(heard.text) ? ASKS_FROM : ACTS_FROM;
    const sure = heard !== null && heard.confidence >= bar;
    const same = sure && heard.text === before?.heard?.text;
    const agreed = sure ? (same ? before.agreed : 0) + 1 : 0;
    this.look = { heard, spokenFrames, silenceSeconds: trailingSeconds, agreed };
    this.lookedAtSeconds = seconds;
  }
}
