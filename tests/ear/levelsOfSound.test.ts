import { describe, expect, test } from 'vitest';
import type { SoundHeard } from '../../src/domain/hearing/microphoneAdvice';
import { LevelMeter } from '../../src/ear/levels';
import { HEARD_RATE } from '../../src/ear/resampling';
import { MicrophoneMeasure } from '../../src/session/microphoneCheckMeasuring';
import { puppetEar } from './doubles';
import { randomFrom } from './noises';

const FRAME = 512;

/** A tone of that mean power, decibels below full scale. */
const tone = (decibels: number, frames: number) =>
  Float32Array.from(
    { length: frames * FRAME },
    (_, at) => Math.SQRT2 * 10 ** (decibels / 20) * Math.sin((2 * Math.PI * 440 * at) / HEARD_RATE),
  );
/** White noise of that mean power. */
function noise(decibels: number, frames: number): Float32Array {
  const random = randomFrom(7);
  const peak = Math.sqrt(3) * 10 ** (decibels / 20);
  return Float32Array.from({ length: frames * FRAME }, () => peak * (2 * random() - 1));
}
const mixed = (one: Float32Array, other: Float32Array) =>
  one.map((sample, at) => sample + (other[at] ?? 0));

/** What the ear tells of it, with a detector that says so. */
function soundsOf(sound: Float32Array, speech: number, meter = new LevelMeter()): SoundHeard[] {
  return Array.from({ length: Math.floor(sound.length / FRAME) }, (_, frame) =>
    meter.push(sound.subarray(frame * FRAME, (frame + 1) * FRAME), speech),
  ).flatMap((report) => report?.sound ?? []);
}

describe('what the ear tells of a sound', () => {
  test.each([-6, -20, -40, -60])('a tone of %d dB is told as that', (decibels) => {
    const sounds = soundsOf(tone(decibels, 30), 0.9);
    expect(sounds).toHaveLength(10);
    for (const sound of sounds) {
      expect(sound.decibels).toBeCloseTo(decibels, 0);
      expect(sound).toMatchObject({ sort: 'speech', clippedShare: 0 });
      expect(sound.seconds).toBeCloseTo((3 * FRAME) / HEARD_RATE);
    }
  });

  test('noise is told as silence, and followed as what lies under speech', () => {
    const meter = new LevelMeter();
    const sounds = soundsOf(noise(-35, 300), 0.05, meter);
    expect(sounds.at(-1)).toMatchObject({ sort: 'silence' });
    expect(sounds.at(-1)?.noiseDecibels).toBeCloseTo(-35, 0);
    // Speech over it changes nothing of that.
    expect(soundsOf(tone(-10, 90), 0.9, meter).at(-1)?.noiseDecibels).toBeCloseTo(-35, 0);
  });

  test('what the detector is not sure of is neither', () => {
    expect(soundsOf(tone(-20, 3), 0.3)[0]?.sort).toBe('mixed');
  });

  test('a sound that is cut off at the top is told as clipped', () => {
    const cut = tone(6, 30).map((sample) => Math.max(-1, Math.min(1, sample)));
    expect(soundsOf(cut, 0.9)[0]?.clippedShare).toBe(1);
  });
});

/** A check of a room and a reply in it. */
function measuredOf(room: SoundHeard[], reply: SoundHeard[], own: SoundHeard[] = []) {
  const measure = new MicrophoneMeasure();
  const parts = [
    ['room', room],
    ['own-voice', own],
    ['reply', reply],
  ] as const;
  for (const [part, sounds] of parts) {
    measure.follow(part);
    sounds.forEach((sound) => measure.hear(sound));
  }
  measure.replied(Infinity);
  return measure.measured();
}

describe('what a check measures', () => {
  test.each([
    [-20, -40],
    [-30, -40],
    [-38, -40],
    [-45, -45],
  ])('a voice of %d dB in noise of %d dB stands so far above it', (voice, room) => {
    const reply = soundsOf(mixed(tone(voice, 60), noise(room, 60)), 0.9);
    const measured = measuredOf(soundsOf(noise(room, 90), 0.05), reply);
    expect(measured.noiseDecibels).toBeCloseTo(room, 0);
    expect(Math.abs((measured.aboveNoiseDecibels ?? Infinity) - (voice - room))).toBeLessThan(1);
    expect(measured.soundArrives).toBe(true);
  });

  test('a dropped plate is no part of the room', () => {
    const room = soundsOf(noise(-45, 90), 0.05);
    const plate = soundsOf(tone(-6, 6), 0.05);
    const measured = measuredOf([...room, ...plate], soundsOf(tone(-25, 30), 0.9));
    expect(measured.noiseDecibels).toBeCloseTo(-45, 0);
  });

  test('only the reply itself counts, from where it began', () => {
    const measure = new MicrophoneMeasure();
    measure.follow('room');
    soundsOf(noise(-50, 60), 0.05).forEach((sound) => measure.hear(sound));
    measure.follow('reply');
    // Somebody at the next rack, then the coach, then the silence that ended it.
    soundsOf(tone(-48, 60), 0.9).forEach((sound) => measure.hear(sound));
    soundsOf(tone(-30, 30), 0.9).forEach((sound) => measure.hear(sound));
    soundsOf(noise(-50, 9), 0.05).forEach((sound) => measure.hear(sound));
    measure.replied((39 * FRAME) / HEARD_RATE);
    expect(Math.abs((measure.measured().aboveNoiseDecibels ?? 0) - 20)).toBeLessThan(1);
  });

  test('speech that was no reply tells how loud the voice is where there is none', () => {
    const measure = new MicrophoneMeasure();
    measure.follow('room');
    soundsOf(noise(-50, 60), 0.05).forEach((sound) => measure.hear(sound));
    measure.follow('reply');
    soundsOf(mixed(tone(-45, 30), noise(-50, 30)), 0.9).forEach((sound) => measure.hear(sound));
    measure.replied(null);
    expect(Math.abs((measure.measured().aboveNoiseDecibels ?? 0) - 5)).toBeLessThan(1);
  });

  test('its own voice is measured against the coach’s, and left out where it is not heard', () => {
    const room = soundsOf(noise(-60, 60), 0.05);
    const reply = soundsOf(tone(-30, 30), 0.9);
    const heard = measuredOf(room, reply, soundsOf(tone(-36, 60), 0.9));
    expect(heard.aboveOwnVoiceDecibels).toBeCloseTo(6, 0);
    const taken = measuredOf(room, reply, soundsOf(noise(-60, 60), 0.05));
    expect(taken.aboveOwnVoiceDecibels).toBeNull();
  });

  test('talk in a room where nobody was asked is told', () => {
    const reply = soundsOf(tone(-20, 30), 0.9);
    const talk = soundsOf(tone(-40, 45), 0.9);
    const still = soundsOf(noise(-60, 45), 0.05);
    expect(measuredOf([...still, ...talk], reply).othersTalked).toBe(true);
    expect(measuredOf(still, reply).othersTalked).toBe(false);
  });

  test('a muted microphone brings no sound, and what is begun anew is forgotten', () => {
    const mute = soundsOf(new Float32Array(60 * FRAME), 0);
    expect(measuredOf(mute, mute)).toMatchObject({ soundArrives: false });
    const measure = new MicrophoneMeasure();
    measure.follow('room');
    soundsOf(noise(-40, 30), 0).forEach((sound) => measure.hear(sound));
    expect(measure.knowsRoom).toBe(true);
    measure.begin();
    expect(measure.knowsRoom).toBe(false);
    expect(measure.measured()).toMatchObject({
      soundArrives: false,
      noiseDecibels: null,
      aboveNoiseDecibels: null,
    });
  });
});

test('what the worker tells of a sound reaches whoever watches the level', () => {
  const { ear, worker } = puppetEar();
  const seen: unknown[] = [];
  ear.onLevel((_level, _hearsWell, sound) => seen.push(sound));
  const [sound] = soundsOf(tone(-20, 3), 0.9);
  worker().tell({
    type: 'level',
    report: { level: 0.4, hearsWell: 'good', ...(sound && { sound }) },
  });
  expect(seen).toEqual([sound]);
});
