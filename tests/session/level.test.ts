/** The phone as a level: what it shows and sounds at the knee, and how far it helps the answer. */
import { describe, expect, it } from 'vitest';
import type { LevelOn, Phase } from '../../src/ports';
import { book, openBench, type Bench } from './bench';
import { strappedPhone } from './strappedPhone';

const RDL = 'set/romanian-deadlift';
const REACH = 'check/overhead-active-standing';

/** At the work of that prompt, where the level looks, with a phone strapped on. */
function at(prompt: string, on: LevelOn, { isOn = true } = {}) {
  const routine = prompt === REACH ? 'overhead' : 'hinge';
  const phone = strappedPhone(on);
  const bench = openBench({ routine, level: isOn ? phone.level : undefined });
  phone.run(bench.clock);
  bench.hand({ command: 'go-to', target: prompt.replace(/^.*\//, '') });
  const looks = prompt === REACH ? 'holding' : 'pausingAtKnee';
  untilPhase(bench, looks);
  return { bench, phone };
}
const untilPhase = (bench: Bench, phase: Phase) => {
  const from = bench.of('phase').length;
  bench.clock.runUntil(
    () =>
      bench
        .of('phase')
        .slice(from)
        .some((each) => each.phase === phase),
    600_000,
  );
};
const shown = (bench: Bench) =>
  bench.of('tilt').map(({ degrees, verdict }) => ({ degrees, verdict }));
const findings = (bench: Bench) => bench.logged('finding');
const ofLevel = (bench: Bench) => bench.tones.filter((name) => /upright|tilted/.test(name));
const ASK = book.drills['romanian-deadlift']!.ask;

describe('at the pause at the knee', () => {
  it.each([
    [4, 'within', 'upright'],
    [22, 'outside', 'tilted'],
  ] as const)('a shin %d degrees off is shown as %s, with its tone', (degrees, verdict, tone) => {
    const { bench, phone } = at(RDL, 'shin');
    phone.tilt(degrees);
    bench.seconds(1.9);
    expect(shown(bench)[0]).toEqual({ degrees: null, verdict: 'moving' });
    expect(shown(bench).at(-1)).toEqual({ degrees, verdict });
    expect(ofLevel(bench)).toEqual([tone]);
  });

  it('the tone changes as the shin comes within, and only then', () => {
    const { bench, phone } = at(RDL, 'shin');
    phone.tilt(20);
    bench.seconds(1.2);
    phone.tilt(2);
    bench.seconds(0.75);
    expect(ofLevel(bench)).toEqual(['tilted', 'upright']);
    untilPhase(bench, 'pausingAtKnee');
    bench.seconds(1.9);
    expect(ofLevel(bench)).toEqual(['tilted', 'upright', 'upright']);
  });

  it('nothing sounds over the word that is being said, nor within 5 degrees of the line', () => {
    const { bench, phone } = at(RDL, 'shin');
    phone.tilt(12);
    bench.seconds(1.9);
    expect(shown(bench).at(-1)).toEqual({ degrees: 12, verdict: 'close' });
    expect(ofLevel(bench)).toEqual([]);
    const sound = at(RDL, 'shin').bench;
    const said = sound.of('cue').at(-1)!;
    sound.seconds(1.9);
    const tone = sound.of('tone').find(({ name }) => name === 'upright')!;
    expect(tone.atSeconds).toBeGreaterThan(said.atSeconds + said.seconds);
  });

  it('while it is moved no angle is shown, and none sounds', () => {
    const { bench, phone } = at(RDL, 'shin');
    phone.shake(3);
    bench.seconds(1.9);
    expect(shown(bench)).toEqual([{ degrees: null, verdict: 'moving' }]);
    expect(ofLevel(bench)).toEqual([]);
  });

  it('the number is changed five times a second at most, and nobody listens afterwards', () => {
    const { bench, phone } = at(RDL, 'shin');
    bench.clock.setTimeout(() => undefined, 0);
    for (let step = 0; step < 18; step += 1) {
      phone.tilt(step * 0.2);
      bench.seconds(0.1);
    }
    const numbers = bench.of('tilt').filter(({ degrees }) => degrees !== null);
    expect(numbers.length).toBeGreaterThan(2);
    numbers
      .slice(1)
      .forEach(({ atSeconds }, at) =>
        expect(atSeconds - numbers[at]!.atSeconds).toBeGreaterThan(0.19),
      );
    bench.seconds(0.3);
    expect(phone.listening()).toBe(0);
  });

  it('without a level, or with it on the arm, nothing is different', () => {
    const without = at(RDL, 'shin', { isOn: false }).bench;
    const onArm = at(RDL, 'upper-arm').bench;
    for (const bench of [without, onArm]) {
      bench.untilAsked(RDL);
      expect(bench.of('tilt')).toEqual([]);
      expect(bench.cues().at(-1)).toBe(ASK);
    }
    expect(onArm.events).toEqual(without.events);
  });
});

describe('at the question', () => {
  it('a shin within ten is offered, and only a yes puts it on record', () => {
    const { bench, phone } = at(RDL, 'shin');
    phone.tilt(4);
    bench.untilAsked('confirm');
    expect(bench.cues().at(-1)).toBe('Shin within ten degrees by the phone: was it a pass?');
    bench.seconds(12);
    expect(findings(bench)).toEqual([]);
    bench.hear('yes', 0.9);
    expect(findings(bench)).toMatchObject([
      {
        ...{ prompt: RDL, result: 'held', faults: [], angleDegrees: null, tool: null },
        ...{ shinDegrees: 4, source: { by: 'voice', text: 'yes', confidence: 0.9 } },
      },
    ]);
  });

  it('touch confirms as well', () => {
    const { bench } = at(RDL, 'shin');
    bench.untilAsked('confirm');
    bench.hand({ command: 'yes' });
    expect(findings(bench)[0]).toMatchObject({ shinDegrees: 0, source: { by: 'hand', text: '' } });
  });

  it('a tilted shin is offered as what it is; a no asks the usual question, and stores nothing', () => {
    const { bench, phone } = at(RDL, 'shin');
    phone.tilt(22);
    bench.untilAsked('confirm');
    expect(bench.cues().at(-1)).toBe('Shin twenty two degrees off by the phone: was it tilted?');
    bench.hear('no');
    bench.untilAsked(RDL);
    expect(bench.cues().at(-1)).toBe(ASK);
    expect(findings(bench)).toEqual([]);
    bench.hear('pass');
    expect(findings(bench)).toMatchObject([{ result: 'held' }]);
    expect(findings(bench)[0]).not.toHaveProperty('shinDegrees');
    const other = at(RDL, 'shin');
    other.phone.tilt(22);
    other.bench.untilAsked('confirm');
    other.bench.hear('yes');
    expect(findings(other.bench)).toMatchObject([
      { result: 'lost', faults: ['shins-tilted'], shinDegrees: 22 },
    ]);
  });

  it('another answer than yes or no goes before what the phone tells', () => {
    const { bench } = at(RDL, 'shin');
    bench.untilAsked('confirm');
    bench.hear('back rounded');
    bench.untilAsked('confirm');
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([{ result: 'lost', faults: ['back-rounded'] }]);
    expect(findings(bench)[0]).not.toHaveProperty('shinDegrees');
  });

  it('one pause that was tilted counts for the set', () => {
    const { bench, phone } = at(RDL, 'shin');
    phone.tilt(30);
    bench.seconds(1.9);
    phone.tilt(2);
    bench.untilAsked('confirm');
    expect(bench.cues().at(-1)).toBe('Shin thirty degrees off by the phone: was it tilted?');
  });

  it('too close to ten, the phone says so and the athlete is asked', () => {
    const { bench, phone } = at(RDL, 'shin');
    phone.tilt(8);
    bench.untilAsked(RDL);
    const close = 'The shin was close to ten degrees, which no phone can call.';
    expect(bench.cues().at(-1)).toBe(`${close} ${ASK}`);
    bench.hear('yes');
    expect(findings(bench)).toEqual([]);
  });

  it('what was moved in most pauses is asked as ever', () => {
    const { bench, phone } = at(RDL, 'shin');
    phone.shake(3);
    bench.untilAsked(RDL);
    expect(bench.cues().at(-1)).toBe(ASK);
  });

  it('a result that was spoken early is offered, not the one of the phone', () => {
    const { bench } = at(RDL, 'shin');
    bench.hear('knees came forward');
    bench.untilAsked('confirm');
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([{ faults: ['knees-forward'] }]);
    expect(findings(bench)[0]).not.toHaveProperty('shinDegrees');
  });

  it('after a reload nothing that only the phone said is offered', () => {
    const { bench } = at(RDL, 'shin');
    bench.untilAsked('confirm');
    const again = openBench({ log: bench.entries, atMilliseconds: bench.clock.now() });
    again.untilAsked(RDL);
    expect(again.cues().at(-1)).toBe(ASK);
    again.hear('yes');
    expect(findings(again)).toEqual([]);
  });
});

describe('a sensor that drops out', () => {
  const LOST = 'The phone tells no angle now, so we go on without it.';

  it.each(['without a word', 'with one'])('%s: the usual question, and said once', (how) => {
    const { bench, phone } = at(RDL, 'shin');
    bench.seconds(1);
    if (how === 'with one') phone.lose('dropped-out');
    else phone.fallSilent();
    bench.seconds(0.6);
    expect(shown(bench).at(-1)).toEqual({ degrees: null, verdict: 'lost' });
    bench.untilAsked(RDL);
    expect(bench.cues().at(-1)).toBe(`${LOST} ${ASK}`);
    bench.hear('pass');
    bench.untilAsked(RDL);
    expect(bench.cues().at(-1)).toBe(ASK);
    expect(bench.cues().filter((text) => text.includes(LOST))).toHaveLength(1);
  });

  it('that comes back helps again with the next set', () => {
    const { bench, phone } = at(RDL, 'shin');
    phone.fallSilent();
    bench.untilAsked(RDL);
    phone.fallSilent(false);
    bench.hear('pass');
    bench.untilAsked('confirm');
    expect(bench.cues().at(-1)).toContain('Shin within ten degrees');
  });
});

describe('the arm overhead', () => {
  const asked = (degrees: number, answer: string) => {
    const { bench, phone } = at(REACH, 'upper-arm');
    phone.tilt(degrees);
    bench.untilAsked(REACH);
    bench.hear(answer);
    return bench;
  };

  it('its angle is shown without a verdict or a tone', () => {
    const { bench, phone } = at(REACH, 'upper-arm');
    phone.tilt(163);
    bench.seconds(3.5);
    expect(shown(bench).at(-1)).toEqual({ degrees: 163, verdict: 'read' });
    expect(ofLevel(bench)).toEqual([]);
  });

  it('is offered with the answer, and a yes records it with its tool', () => {
    const bench = asked(163, 'pass');
    expect(findings(bench)).toEqual([]);
    bench.untilAsked('confirm');
    expect(bench.cues().at(-1)).toBe('Pass, at one sixty three by the phone?');
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([
      { result: 'held', angleDegrees: 163, tool: 'tilt-sensor', source: { text: 'pass, yes' } },
    ]);
  });

  it('a no keeps the answer, without the angle', () => {
    const bench = asked(163, 'ribs flared');
    bench.untilAsked('confirm');
    bench.hear('no');
    expect(findings(bench)).toMatchObject([
      { result: 'lost', faults: ['ribs-flared'], angleDegrees: null, tool: null },
    ]);
  });

  it('a pass well under the line is asked about; within 5 degrees of it, it is not', () => {
    const under = asked(130, 'pass');
    under.untilAsked('confirm');
    expect(under.cues().at(-1)).toBe('Pass, but one thirty by the phone, under the line?');
    const close = asked(152, 'pass');
    close.untilAsked('confirm');
    expect(close.cues().at(-1)).toBe('Pass, at one fifty two by the phone?');
  });

  it('an angle that somebody says goes before it, as read by themselves', () => {
    const bench = asked(163, 'pass one seventy');
    expect(findings(bench)).toMatchObject([{ angleDegrees: 170, tool: 'eye' }]);
    const corrected = asked(163, 'pass');
    corrected.untilAsked('confirm');
    corrected.hear('no, one seventy');
    expect(findings(corrected)).toMatchObject([{ angleDegrees: 170, tool: 'eye' }]);
  });

  it('silence puts nothing on record, and pain needs no angle', () => {
    const bench = asked(163, 'pass');
    bench.seconds(120);
    expect(findings(bench)).toEqual([]);
    const hurt = asked(163, 'pain three');
    expect(findings(hurt)).toMatchObject([{ result: 'pain', pain: 3, angleDegrees: null }]);
  });
});
