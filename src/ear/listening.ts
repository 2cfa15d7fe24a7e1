import type { Grammar } from '../domain/hearing/grammar';
import type { Hearing } from '../ports';
import { Attended } from './attended';
import { CoachLevel, sortOf } from './coachLevel';
import { ACTS_FROM } from './confidence';
import { FRAME, type Detector } from './detecting';
import { endsAfter, silenceAfter } from './ending';
import { HALT_SECONDS, Halting } from './halting';
import { HaltWatch, type Halt, type WholeRecogniser } from './haltWatch';
import type { Lexicon } from './lexicon';
import { LookAway } from './lookAway';
import type { Looked } from './looked';
import { Looking, READY_SILENCE_SECONDS, type Seen } from './looking';
import { LONGEST_SECONDS, type HeardWords, type Recogniser } from './recognising';
import { COMBINED_SILENCE_SECONDS, FRAME_SECONDS, PRE_ROLL_SECONDS, Segmenter } from './segmenting';
import { Telling } from './telling';
import { isUrgentIn } from './urgent';
import { WaitingSound } from './waitingSound';

/** While somebody speaks, this often a look; more seldom where a look is long. */
const LOOK_EVERY_SECONDS = 0.24;
const LOOKS_SHARE = 0.08;
/** Sooner while somebody stands out from what is heard, as over Sayso's own voice. */
const LOOK_SOON_SECONDS = 0.12;
/** A look that should end a reply comes as soon as it may, but not sooner than this. */
const LOOK_AGAIN_SECONDS = 0.09;
/** A first look into the silence, for urgent words alone. */
const FIRST_SILENCE_SECONDS = 0.06;
/** Where more sound waits, that look waits too, but no longer than this. */
const LATEST_SILENCE_SECONDS = 0.5;
/** Sound before a talk that is kept with it. */
const KEPT_BEFORE_SECONDS = 0.4;
/** A sure reply that may go on is told so far after this. */
const SO_FAR_SECONDS = 0.2;
/**
 * A talk that has just begun may have begun before: of speech that breaks off the heads may lose so
 * much of the end.
 */
const YOUNG_TALK_SECONDS = 0.45;

/**
 * Sound in, hearings out: segments, recognises, and reports. Time is counted in samples, so the
 * same sound always gives the same hearings, except that looks are left out when sound piles up.
 */
export class Listening {
  private readonly segmenter = new Segmenter();
  private waiting = new Float32Array(0);
  private working: Promise<void> = Promise.resolve();
  private readonly pending = new WaitingSound();
  private readonly attended = new Attended();
  private nowSeconds = 0;
  /** When the talk began that is being heard. */
  private beganAtSeconds = 0;
  private lexicon: Lexicon;
  private readonly coach = new CoachLevel();
  private readonly looking: Looking;
  private readonly telling: Telling;
  private readonly halts: HaltWatch;
  private readonly away = new LookAway<Seen>();

  constructor(
    private readonly parts: {
      recogniser: WholeRecogniser;
      /** Looks for stop words alone, where it is sooner done than the other. */
      quick?: Recogniser;
      detector: Detector;
      lexicon: Lexicon;
      /** Utterances told before the silence after them: "stop", "pause". */
      urgent: ReadonlySet<string>;
      tell: (hearing: Hearing) => void;
      /** Every frame: its loudness and whether it was speech, for the level shown. */
      measure?: (frame: Float32Array, speech: number) => void;
      /** Lets sound in that came during a look, so that it is known to be waiting. */
      breathe?: () => Promise<void>;
    },
  ) {
    this.lexicon = parts.lexicon;
    this.looking = new Looking(parts.recogniser, this.coach, this.isUrgent);
    this.telling = new Telling(parts.tell);
    const halting = parts.quick ? new Halting(parts.quick, parts.urgent) : null;
    this.halts = new HaltWatch(halting, parts.recogniser);
  }

  /** Speech that begins from now on is understood by this grammar. */
  attend(grammar: Grammar): void {
    this.attended.attend(grammar, this.nowSeconds, this.beganAtSeconds);
  }

  /** Words sound like this from now on; those that it leaves out as before. */
  sayBy(lexicon: Lexicon): void {
    this.lexicon = { ...this.lexicon, ...lexicon };
  }

  /** The coach sounds as loud as what comes next: through another microphone, say. */
  forgetLoudness(): void {
    this.coach.forget();
  }

  /** Takes in 16 kHz sound of any length. Resolves when it has been worked through. */
  push(samples: Float32Array): Promise<void> {
    this.pending.add(samples.length);
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
    this.pending.add(-samples.length);
  }

  private async frame(frame: Float32Array): Promise<void> {
    this.nowSeconds += FRAME_SECONDS;
    const seen = await this.away.back(this.nowSeconds);
    if (seen !== null) this.known(seen);
    this.tellHalt(await this.halts.back(this.nowSeconds));
    const speech = await this.parts.detector.speech(frame);
    this.parts.measure?.(frame, speech);
    switch (this.segmenter.push(frame, speech)) {
      case 'onset':
        this.begin();
        return this.telling.onset();
      case 'too-short':
        return this.telling.nothing();
      case 'speaking':
        if (this.segmenter.seconds > LONGEST_SECONDS) return this.drop();
        await this.lookForHalt();
        if (this.isTimeToLook) await this.look();
        return this.settle();
      case 'trailing':
        await this.lookForHalt();
        if (this.isSilenceToLookAt) await this.look();
        return this.settle();
      case 'silent':
    }
  }

  /** What is said from now on is heard by itself. */
  private begin(): void {
    this.halts.forget(this.nowSeconds);
    this.beganAtSeconds = this.nowSeconds;
    this.looking.begin(this.nowSeconds);
    this.telling.begin();
  }

  private drop(): void {
    this.segmenter.drop();
    this.telling.nothing();
  }

  private get isTimeToLook(): boolean {
    if (this.away.isOut) return false;
    const since = this.nowSeconds - this.looking.atSeconds;
    const often = Math.max(LOOK_EVERY_SECONDS, LOOKS_SHARE * this.segmenter.seconds);
    const hasTime = !this.isWatched || this.halts.suspects || this.pending.isFresh;
    const isSoon = this.segmenter.stoodOut && hasTime;
    const usual = isSoon ? LOOK_SOON_SECONDS : often;
    if (this.isHaltToConfirm) return !this.pending.isBehind && since >= LOOK_AGAIN_SECONDS;
    const left = this.believed === null ? usual : this.endsAfter(this.believed) - this.silence;
    return !this.pending.isBehind && since >= Math.min(usual, Math.max(LOOK_AGAIN_SECONDS, left));
  }

  private get isSilenceToLookAt(): boolean {
    if (this.away.isOut) return false;
    const silence = this.segmenter.trailingSeconds;
    const { looked } = this;
    const seen = looked?.spokenFrames === this.segmenter.spokenFrames ? looked.silenceSeconds : 0;
    if (silence >= READY_SILENCE_SECONDS && seen < READY_SILENCE_SECONDS)
      return !this.pending.isBehind || silence >= LATEST_SILENCE_SECONDS;
    if (silence >= FIRST_SILENCE_SECONDS && seen === 0) return !this.pending.isBehind;
    if (this.isHaltToConfirm)
      return (
        !this.pending.isBehind && this.nowSeconds - this.looking.atSeconds >= LOOK_AGAIN_SECONDS
      );
    // The detector may not hear a soft word: nothing is over before one more look.
    return this.believed !== null && this.silence >= this.endsAfter(this.believed) && !this.isSeen;
  }

  /** A stop word that one look believes waits for nothing but a second look. */
  private get isHaltToConfirm(): boolean {
    const { believed, looked } = this;
    if (this.telling.told !== null || believed === null || looked?.agreed !== 1) return false;
    return this.isToldAtOnce(believed);
  }

  private get looked(): Looked | null {
    return this.looking.looked;
  }

  /** Words that the last look would act on or ask about. */
  private get believed(): HeardWords | null {
    return this.looking.believed;
  }

  private get isSeen(): boolean {
    return this.looking.isSeen(this.nowSeconds);
  }

  private readonly isUrgent = (text: string): boolean => isUrgentIn(this.parts.urgent, text);

  /** A stop word, unless more of it would make it another reply. */
  private isToldAtOnce({ text, following }: HeardWords): boolean {
    return this.isUrgent(text) && following !== 'rest';
  }

  private endsAfter(heard: HeardWords): number {
    return endsAfter(heard, this.isUrgent(heard.text));
  }

  private get silence(): number {
    return silenceAfter(this.looked, this.segmenter, this.nowSeconds);
  }

  /** Tells what is over, and forgets what can be no part of a reply any more. */
  private settle(): void {
    const { segmenter, looked, believed } = this;
    if (this.telling.told === null && believed !== null && this.isToldAtOnce(believed)) {
      const halt = this.halts.sureOf(believed, this.nowSeconds);
      if (halt !== null) this.tellWords(halt);
    }
    this.tellSoFar();
    const silence = segmenter.trailingSeconds;
    const isOver = silence >= COMBINED_SILENCE_SECONDS && !this.away.isOut;
    const halt = this.looking.haltAfterAll(this.nowSeconds, isOver);
    if (halt !== null) return this.close(halt);
    if (believed !== null && this.isSeen && this.silence >= this.endsAfter(believed))
      return this.close(believed);
    if (isOver) return this.close(looked?.heard ?? null);
    if (silence === 0 && believed === null && looked?.knownAtSeconds === this.nowSeconds)
      this.forget(looked);
  }

  /** A sure reply that is waited for, since more of it may follow. */
  private tellSoFar(): void {
    const { believed, grammar } = this;
    if (believed === null || grammar === undefined || !this.isSeen) return;
    if (believed.following !== 'more' || believed.confidence < ACTS_FROM) return;
    if (this.silence >= SO_FAR_SECONDS) this.telling.soFar(believed, grammar.prompt);
  }

  private close(heard: HeardWords | null): void {
    if (heard === null) this.telling.nothing();
    else if (heard.text !== this.telling.told) this.tellWords(heard);
    if (this.segmenter.trailingSeconds > 0) this.segmenter.reset();
    else this.segmenter.forget(PRE_ROLL_SECONDS);
    this.begin();
  }

  /** In a room full of talk the detector hears speech without end: what counts are the phones. */
  private forget({ talk, atSeconds }: Looked): void {
    const { segmenter } = this;
    const isOver = talk === null || talk.endedSeconds >= COMBINED_SILENCE_SECONDS;
    if (isOver && this.looking.phones.secondsAgo(atSeconds) < COMBINED_SILENCE_SECONDS) return;
    const beganAtSeconds = atSeconds - (isOver ? 0 : talk.beganSeconds);
    const kept = KEPT_BEFORE_SECONDS + this.nowSeconds - beganAtSeconds;
    if (segmenter.seconds - kept < COMBINED_SILENCE_SECONDS) return;
    if (!isOver && talk.beganSeconds < YOUNG_TALK_SECONDS) return;
    if (isOver) {
      this.telling.nothing();
      this.begin();
    } else this.beganAtSeconds = beganAtSeconds;
    segmenter.forget(kept);
  }

  /** Whether somebody is speaking, or has spoken and was not yet told. */
  get open(): boolean {
    return this.segmenter.open;
  }

  private tellWords(heard: HeardWords, haltBegan?: number): void {
    this.halts.wasTold(this.nowSeconds);
    const { grammar, looked } = this;
    if (grammar !== undefined && haltBegan === undefined && looked?.isSure === true)
      this.coach.told(sortOf(grammar, heard.text), looked.decibels, this.nowSeconds);
    const began = haltBegan ?? (looked?.heard && this.sinceBegun(looked.heard, looked));
    this.telling.words(heard, grammar?.prompt ?? 'idle', began);
  }

  /** From the first phone of the words until now. */
  private sinceBegun({ spokenSeconds, silenceSeconds }: HeardWords, looked: Looked): number {
    return spokenSeconds + silenceSeconds + this.nowSeconds - looked.atSeconds;
  }

  /** During work and while most lines are said: nothing is asked then. */
  private get isIdle(): boolean {
    return this.grammar?.prompt === 'idle';
  }

  /** Whether nothing is as urgent as what is looked for by itself. */
  private get isWatched(): boolean {
    return this.halts.isOn && this.isIdle;
  }

  /** What was attended when the talk began. */
  private get grammar(): Grammar | undefined {
    return this.attended.at(this.beganAtSeconds);
  }

  /** While somebody is louder than before, or where nothing is asked has just begun, or may be saying one. */
  private async lookForHalt(): Promise<void> {
    const { halts, segmenter, nowSeconds, grammar } = this;
    if (!halts.isOn || grammar === undefined || this.telling.told !== null) return;
    const isYoung = this.isIdle && segmenter.seconds <= HALT_SECONDS;
    if (!segmenter.stoodOut && !isYoung && !halts.suspects) return;
    if (!halts.isTime(nowSeconds, this.pending.isFresh)) return;
    const latest = (seconds: number) => segmenter.latest(seconds);
    const halt = await halts.look(latest, { grammar, lexicon: this.lexicon }, nowSeconds);
    await this.parts.breathe?.();
    this.tellHalt(halt);
  }

  private tellHalt(halt: Halt | null): void {
    if (halt === null || this.telling.told !== null) return;
    this.tellWords(halt.heard, halt.beganSecondsAgo);
  }

  private async look(): Promise<void> {
    const { grammar, segmenter, nowSeconds, lexicon } = this;
    if (grammar === undefined) return;
    const look = this.looking.look(segmenter, { grammar, lexicon }, nowSeconds);
    if (this.parts.recogniser.isApart === true) return this.away.send(look, nowSeconds);
    this.known(await look);
    await this.parts.breathe?.();
  }

  private known(seen: Seen): void {
    this.looking.take(seen, this.nowSeconds);
    const { looked } = this;
    if (looked?.atSeconds !== seen.atSeconds) return;
    const isHalt = looked.heard !== null && this.isToldAtOnce(looked.heard);
    this.halts.noteWhole(isHalt ? looked.heard : null, looked.atSeconds);
  }
}
