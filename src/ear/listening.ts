import type { Grammar } from '../domain/hearing/grammar';
import type { Hearing } from '../ports';
import { CoachLevel, sortOf } from './coachLevel';
import { ACTS_FROM, ASKS_FROM, HALTS_FROM } from './confidence';
import { FRAME, type Detector } from './detecting';
import { endsAfter, silenceAfter } from './ending';
import { HALT_SECONDS, Halting } from './halting';
import type { Lexicon } from './lexicon';
import { loudestOf } from './loudness';
import { wordsOf, type Looked } from './looked';
import { PhonesHeard } from './phonesHeard';
import { LONGEST_SECONDS, type HeardWords, type Look, type Recogniser } from './recognising';
import { isUrgentIn } from './urgent';
import { COMBINED_SILENCE_SECONDS, FRAME_SECONDS, PRE_ROLL_SECONDS, Segmenter } from './segmenting';
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
/** Silence after which the reply is worked out, so that it is ready when the silence is enough. */
const READY_SILENCE_SECONDS = 0.16;
/** Nothing ends by a look older than this. */
const SEEN_SECONDS = 0.25;
/** Where more sound waits, that look waits too, but no longer than this. */
const LATEST_SILENCE_SECONDS = 0.5;
/** Sound before a talk that is kept with it. */
const KEPT_BEFORE_SECONDS = 0.4;
/** A sure reply that may go on is told so far after this. */
const SO_FAR_SECONDS = 0.2;
/**
 * A talk that has just begun may have begun before: of speech that breaks off the heads lose up to
 * so much of the end.
 */
const YOUNG_TALK_SECONDS = 0.45;
/** A grade far below the coach's loudness is asked about. */
const DOUBTED = ACTS_FROM - 0.01;

/**
 * Sound in, hearings out: segments, recognises, and reports. Time is counted in samples, so the
 * same sound always gives the same hearings, except that looks are left out when sound piles up.
 */
export class Listening {
  private readonly segmenter = new Segmenter();
  private waiting = new Float32Array(0);
  private working: Promise<void> = Promise.resolve();
  private readonly pending = new WaitingSound();
  /** What was attended from when on, the latest last. */
  private readonly attended: { grammar: Grammar; fromSeconds: number }[] = [];
  private nowSeconds = 0;
  /** When the talk began that is being heard. */
  private beganAtSeconds = 0;
  private looked: Looked | null = null;
  private lookedAtSeconds = 0;
  private readonly phones = new PhonesHeard();
  private told: string | null = null;
  private toldSoFar: string | null = null;
  /** Whether an onset was told and nothing yet of what became of it. */
  private isAwaited = false;
  private lexicon: Lexicon;
  private readonly coach = new CoachLevel();
  private readonly halting: Halting | null;

  constructor(
    private readonly parts: {
      recogniser: Recogniser;
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
    this.halting = parts.quick ? new Halting(parts.quick, parts.urgent) : null;
  }

  /** Speech that begins from now on is understood by this grammar. */
  attend(grammar: Grammar): void {
    this.attended.push({ grammar, fromSeconds: this.nowSeconds });
    const before = this.attended.findLastIndex((each) => each.fromSeconds <= this.beganAtSeconds);
    this.attended.splice(0, before);
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
    const speech = await this.parts.detector.speech(frame);
    this.parts.measure?.(frame, speech);
    switch (this.segmenter.push(frame, speech)) {
      case 'onset':
        this.begin();
        return this.tellOnset();
      case 'too-short':
        return this.tellNothing();
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
    this.beganAtSeconds = this.nowSeconds;
    this.looked = null;
    this.told = null;
    this.toldSoFar = null;
    this.lookedAtSeconds = this.nowSeconds;
    this.phones.forget();
  }

  private drop(): void {
    this.segmenter.drop();
    this.tellNothing();
  }

  private get isTimeToLook(): boolean {
    const since = this.nowSeconds - this.lookedAtSeconds;
    const often = Math.max(LOOK_EVERY_SECONDS, LOOKS_SHARE * this.segmenter.seconds);
    const hasTime = !this.halts || this.halting?.suspects === true || this.pending.isFresh;
    const isSoon = this.segmenter.stoodOut && hasTime;
    const usual = isSoon ? LOOK_SOON_SECONDS : often;
    if (this.isHaltToConfirm) return !this.pending.isBehind && since >= LOOK_AGAIN_SECONDS;
    const left = this.believed === null ? usual : this.endsAfter(this.believed) - this.silence;
    return !this.pending.isBehind && since >= Math.min(usual, Math.max(LOOK_AGAIN_SECONDS, left));
  }

  private get isSilenceToLookAt(): boolean {
    const silence = this.segmenter.trailingSeconds;
    const { looked } = this;
    const seen = looked?.spokenFrames === this.segmenter.spokenFrames ? looked.silenceSeconds : 0;
    if (silence >= READY_SILENCE_SECONDS && seen < READY_SILENCE_SECONDS)
      return !this.pending.isBehind || silence >= LATEST_SILENCE_SECONDS;
    if (silence >= FIRST_SILENCE_SECONDS && seen === 0) return !this.pending.isBehind;
    if (this.isHaltToConfirm)
      return !this.pending.isBehind && this.nowSeconds - this.lookedAtSeconds >= LOOK_AGAIN_SECONDS;
    // The detector may not hear a soft word: nothing is over before one more look.
    return this.believed !== null && this.silence >= this.endsAfter(this.believed) && !this.isSeen;
  }

  /** A stop word that one look believes waits for nothing but a second look. */
  private get isHaltToConfirm(): boolean {
    const { believed, looked, told } = this;
    if (told !== null || believed === null || looked?.agreed !== 1) return false;
    return this.isUrgent(believed.text);
  }

  /** Whether the last look is new enough, and saw a silence or the same words once more. */
  private get isSeen(): boolean {
    const { looked } = this;
    if (looked === null || this.nowSeconds - looked.atSeconds > SEEN_SECONDS) return false;
    return looked.silenceSeconds >= READY_SILENCE_SECONDS || looked.agreed >= 2;
  }

  /** Words that the last look would act on or ask about. */
  private get believed(): HeardWords | null {
    const heard = this.looked?.heard ?? null;
    return this.isBelieved(heard) ? heard : null;
  }

  private isBelieved(heard: HeardWords | null): heard is HeardWords {
    if (heard === null) return false;
    return heard.confidence >= (this.isUrgent(heard.text) ? HALTS_FROM : ASKS_FROM);
  }

  private isUrgent(text: string): boolean {
    return isUrgentIn(this.parts.urgent, text);
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
    if (this.told === null && believed !== null && looked !== null && this.isUrgent(believed.text))
      if (looked.agreed >= 2 || this.halting?.believes(believed.text) === true)
        this.tellWords({ ...believed, confidence: looked.best });
    this.tellSoFar();
    const silence = segmenter.trailingSeconds;
    if (believed !== null && this.isSeen && this.silence >= this.endsAfter(believed))
      return this.close(believed);
    if (silence >= COMBINED_SILENCE_SECONDS) return this.close(looked?.heard ?? null);
    if (silence === 0 && believed === null && looked?.atSeconds === this.nowSeconds)
      this.forget(looked);
  }

  /** A sure reply that is waited for, since more of it may follow. */
  private tellSoFar(): void {
    const { believed, grammar } = this;
    if (believed === null || grammar === undefined || !this.isSeen) return;
    const { text, confidence, following } = believed;
    if (following !== 'more' || confidence < ACTS_FROM || this.silence < SO_FAR_SECONDS) return;
    if (text === this.told || text === this.toldSoFar) return;
    this.toldSoFar = text;
    this.parts.tell({ type: 'so-far', ...{ text, confidence, prompt: grammar.prompt } });
  }

  private close(heard: HeardWords | null): void {
    if (heard === null) this.tellNothing();
    else if (heard.text !== this.told) this.tellWords(heard);
    if (this.segmenter.trailingSeconds > 0) this.segmenter.reset();
    else this.segmenter.forget(PRE_ROLL_SECONDS);
    this.begin();
  }

  /** In a room full of talk the detector hears speech without end: what counts are the phones. */
  private forget({ talk }: Look): void {
    const { segmenter } = this;
    const isOver = talk === null || talk.endedSeconds >= COMBINED_SILENCE_SECONDS;
    if (isOver && this.phones.secondsAgo(this.nowSeconds) < COMBINED_SILENCE_SECONDS) return;
    const kept = KEPT_BEFORE_SECONDS + (isOver ? 0 : talk.beganSeconds);
    if (segmenter.seconds - kept < COMBINED_SILENCE_SECONDS) return;
    if (!isOver && talk.beganSeconds < YOUNG_TALK_SECONDS) return;
    if (isOver) {
      this.tellNothing();
      this.begin();
    } else this.beganAtSeconds = this.nowSeconds - talk.beganSeconds;
    segmenter.forget(kept);
  }

  /** Whether somebody is speaking, or has spoken and was not yet told. */
  get open(): boolean {
    return this.segmenter.open;
  }

  private tellOnset(): void {
    this.isAwaited = true;
    this.parts.tell({ type: 'onset' });
  }

  private tellNothing(): void {
    if (this.isAwaited) this.parts.tell({ type: 'nothing' });
    this.isAwaited = false;
  }

  private tellWords({ text, confidence, other, phones }: HeardWords, haltBegan?: number): void {
    this.halting?.wasTold(this.nowSeconds);
    if (!this.isAwaited && this.told === null) this.tellOnset();
    this.isAwaited = false;
    this.told = text;
    const { grammar, looked } = this;
    if (grammar !== undefined && haltBegan === undefined && looked?.isSure === true)
      this.coach.told(sortOf(grammar, text), looked.decibels, this.nowSeconds);
    const prompt = grammar?.prompt ?? 'idle';
    const began = haltBegan ?? (looked?.heard && this.sinceBegun(looked.heard, looked));
    this.parts.tell({
      type: 'words',
      ...{ text, confidence, prompt },
      ...(other && { other }),
      ...(phones && { phones }),
      ...(began != null && { beganSecondsAgo: began }),
    });
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
  private get halts(): boolean {
    return this.halting !== null && this.isIdle;
  }

  /** What was attended when the talk began. */
  private get grammar(): Grammar | undefined {
    const { attended, beganAtSeconds } = this;
    return (attended.findLast((each) => each.fromSeconds <= beganAtSeconds) ?? attended[0])
      ?.grammar;
  }

  /** While somebody is louder than before, or, where nothing is asked, has just begun. */
  private async lookForHalt(): Promise<void> {
    const { halting, segmenter, nowSeconds } = this;
    if (halting === null || this.told !== null) return;
    const isYoung = this.isIdle && segmenter.seconds <= HALT_SECONDS;
    if (!segmenter.stoodOut && !isYoung) return;
    if (!halting.isTime(nowSeconds, this.pending.isFresh)) return;
    const sound = segmenter.latest(halting.secondsAt(nowSeconds));
    const believed = this.believed?.text ?? null;
    const heard = await halting.look(sound, this.lexicon, nowSeconds, believed);
    await this.parts.breathe?.();
    if (heard !== null) this.tellWords(heard, heard.spokenSeconds + heard.silenceSeconds);
  }

  private async look(): Promise<void> {
    const { spokenFrames, trailingSeconds } = this.segmenter;
    const { grammar, lexicon, looked } = this;
    if (grammar === undefined) return;
    const { look, sound } = await this.lookFromWhereItBegan(grammar, lexicon);
    const decibels = look.heard === null ? -Infinity : loudestOf(wordsOf(look.heard, sound));
    const isSure = (look.heard?.confidence ?? 0) >= ACTS_FROM;
    const first = this.doubted(look.heard, grammar, decibels);
    const isSame = first !== null && first.text === looked?.heard?.text;
    const heard = isSame && looked.agreed > 0 ? stillBelieved(first) : first;
    this.looked = {
      ...look,
      ...{ heard, decibels, isSure },
      atSeconds: this.nowSeconds,
      spokenFrames,
      silenceSeconds: trailingSeconds,
      agreed: this.isBelieved(heard) ? (isSame ? looked.agreed : 0) + 1 : 0,
      best: Math.max(heard?.confidence ?? 0, isSame ? looked.best : 0),
    };
    this.lookedAtSeconds = this.nowSeconds;
    this.phones.note(look, this.nowSeconds);
    await this.parts.breathe?.();
  }

  /**
   * Where nothing is believed once it is over, with more from before: a slow "st" begins before
   * all that the detector hears.
   */
  private async lookFromWhereItBegan(
    grammar: Grammar,
    lexicon: Lexicon,
  ): Promise<{ look: Look; sound: Float32Array }> {
    const sound = this.segmenter.sound();
    const first = await this.parts.recogniser.look(sound, grammar, lexicon);
    // Not always: a crowd is no speech to the heads where nothing sets it off.
    const look = this.phones.lostIn(first, this.nowSeconds)
      ? await this.parts.recogniser.look(sound, grammar, lexicon, true)
      : first;
    const isOver = this.segmenter.trailingSeconds >= READY_SILENCE_SECONDS;
    const more = isOver && !this.isBelieved(look.heard) ? this.segmenter.soundFromEarlier() : null;
    if (more === null) return { look, sound };
    const again = await this.parts.recogniser.look(more, grammar, lexicon);
    return this.isBelieved(again.heard) ? { look: again, sound: more } : { look, sound };
  }

  /** What is said far below the coach's loudness may be said at the next rack. */
  private doubted(heard: HeardWords | null, grammar: Grammar, decibels: number): HeardWords | null {
    if (heard === null || heard.confidence < ACTS_FROM) return heard;
    if (sortOf(grammar, heard.text) !== 'grade') return heard;
    const isDoubted = this.coach.isFarBelow(decibels, this.nowSeconds);
    return isDoubted ? { ...heard, confidence: DOUBTED } : heard;
  }
}

/** Words that the look before believed are asked about though talk after them makes them less likely. */
const stillBelieved = (heard: HeardWords): HeardWords =>
  heard.confidence >= HALTS_FROM && heard.confidence < ASKS_FROM
    ? { ...heard, confidence: ASKS_FROM }
    : heard;
