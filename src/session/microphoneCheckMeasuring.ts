import type { MicrophoneMeasured, SoundHeard } from '../domain/hearing/microphoneAdvice';

/** What the sound of a moment is measured for. */
export type MeasuredPart = 'room' | 'own-voice' | 'reply';

/** What the sound alone tells. */
export type SoundMeasured = Pick<
  MicrophoneMeasured,
  | 'soundArrives'
  | 'aboveNoiseDecibels'
  | 'noiseDecibels'
  | 'clippedShare'
  | 'aboveOwnVoiceDecibels'
  | 'othersTalked'
>;

/** A microphone that is muted is quieter than any room. */
const MUTED_DECIBELS = -90;
/** Less speech than this is a cough: 0.3 s. */
const LEAST_SPOKEN = 3;
/** Of the room's loudest tenth a dropped plate may be. */
const COUNTED_SHARE = 0.9;
/** Talk, where so much of a moment without a reply was speech. */
const TALKED_SHARE = 0.3;
/** Its own voice comes through where it is so far above the room. */
const COMES_THROUGH_DECIBELS = 3;

/** Gathers what the ear tells of the sound, by what was going on. */
export class MicrophoneMeasure {
  private part: MeasuredPart | null = null;
  private arrived: SoundHeard[] = [];
  private room: SoundHeard[] = [];
  private ownVoice: SoundHeard[] = [];
  /** Since the reply was waited for. */
  private waited: SoundHeard[] = [];
  private replies: SoundHeard[] = [];
  /** Spoken, but no reply. */
  private talk: SoundHeard[] = [];

  /** Forgets all that was heard. */
  begin(): void {
    this.part = null;
    for (const part of ['arrived', 'room', 'ownVoice', 'waited', 'replies', 'talk'] as const)
      this[part] = [];
  }

  hear(sound: SoundHeard): void {
    if (this.part === null) return;
    this.arrived.push(sound);
    if (this.part === 'room') this.room.push(sound);
    else if (this.part === 'own-voice') this.ownVoice.push(sound);
    else this.waited.push(sound);
  }

  /** What comes from now on is that; null: it is not measured. */
  follow(part: MeasuredPart | null): void {
    this.part = part;
  }

  /** What was waited for is over: a reply that began so long ago, or none (null). */
  replied(beganSecondsAgo: number | null): void {
    const { waited } = this;
    this.waited = [];
    if (beganSecondsAgo === null) {
      const spoken = waited.filter(isSpeech);
      if (spoken.length >= LEAST_SPOKEN) this.talk.push(...spoken);
      return;
    }
    let seconds = 0;
    const since = waited.findLastIndex((sound) => (seconds += sound.seconds) >= beganSecondsAgo);
    const reply = waited.slice(Math.max(0, since));
    const spoken = reply.filter(isSpeech);
    this.replies.push(...(spoken.length > 0 ? spoken : reply));
  }

  /** The room was listened to. */
  get knowsRoom(): boolean {
    return this.room.length > 0;
  }

  measured(): SoundMeasured {
    const { arrived, room, ownVoice, replies, talk } = this;
    const noise = room.length === 0 ? null : powerOf(quieter(room));
    const voice = [replies, talk].find((spoken) => spoken.length > 0) ?? [];
    const over = (power: number, under: number | null) =>
      under === null ? null : ratio(Math.max(power - under, 0), under);
    const own = ownVoice.length === 0 ? null : over(powerOf(ownVoice), noise);
    const comesThrough = own !== null && own >= COMES_THROUGH_DECIBELS;
    const talked = room.filter(isSpeech).length > TALKED_SHARE * room.length;
    return {
      soundArrives: arrived.some(({ decibels }) => decibels > MUTED_DECIBELS),
      aboveNoiseDecibels: voice.length === 0 ? null : over(powerOf(voice), noise),
      noiseDecibels: noise === null ? null : 10 * Math.log10(noise),
      clippedShare:
        voice.reduce((sum, { clippedShare }) => sum + clippedShare, 0) / (voice.length || 1),
      aboveOwnVoiceDecibels:
        comesThrough && voice.length > 0 ? ratio(powerOf(voice), powerOf(ownVoice)) : null,
      othersTalked: talked,
    };
  }
}

const isSpeech = ({ sort }: SoundHeard) => sort === 'speech';

const quieter = (sounds: SoundHeard[]) =>
  [...sounds]
    .sort((one, other) => one.decibels - other.decibels)
    .slice(0, Math.max(1, Math.round(COUNTED_SHARE * sounds.length)));

/** Mean power, 1 the loudest there is. */
const powerOf = (sounds: SoundHeard[]) =>
  sounds.reduce((sum, { decibels }) => sum + 10 ** (decibels / 10), 0) / sounds.length;

/** What drowns in the noise is not told apart from it: 20 dB below at most. */
const ratio = (power: number, under: number) =>
  Math.max(-20, 10 * Math.log10(power / under || 1e-10));
