import { describe, expect, it } from 'vitest';
import { openBench } from './bench';

/** A slow phone: longer than the tone after an answer, which a quick one makes a line in. */
const MAKING_SECONDS = 0.7;

/** A session that is answered so, question by question, with a voice that has to make its lines. */
function session(routine: string, replies: (question: number) => string) {
  const bench = openBench({ routine, makingSeconds: MAKING_SECONDS });
  const answered: { reply: string; waits: typeof bench.waits }[] = [];
  let [reply, from] = ['', 0];
  for (let question = 0; question < 40 && !bench.isOver(); question += 1) {
    bench.untilAsked();
    answered.push({ reply, waits: bench.waits.slice(from) });
    if (bench.isOver()) break;
    from = bench.waits.length;
    reply = bench.prompt() === 'confirm' ? 'yes' : replies(question);
    bench.seconds(1);
    bench.hear(reply);
  }
  return { bench, answered };
}
const lateIn = (waits: { text: string; seconds: number }[]) =>
  waits.filter(({ seconds }) => seconds > 0);

describe.each([
  ['hinge', 'knees came forward'],
  ['squat', 'heels came up'],
  ['overhead', 'ribs flared'],
])('in a session of the ladder, %s', (routine, fault) => {
  it('every line that comes after a pass sounds the moment it is asked for', () => {
    const { bench, answered } = session(routine, (question) => (question < 2 ? fault : 'held'));
    const afterPasses = answered.filter(({ reply }) => reply === 'held');
    expect(bench.isOver()).toBe(true);
    expect(afterPasses.length).toBeGreaterThan(3);
    expect(afterPasses.flatMap(({ waits }) => waits).length).toBeGreaterThan(20);
    expect(afterPasses.flatMap(({ waits }) => lateIn(waits))).toEqual([]);
  });

  it('before the first question only the very first line is waited for', () => {
    const { bench, answered } = session(routine, () => 'held');
    const [first] = answered;
    expect(lateIn(first?.waits ?? []).map(({ text }) => text)).toEqual([bench.cues()[0]]);
  });
});

describe('in a session with faults', () => {
  const faults = ['knees came forward', 'held', 'knees came forward', 'held', 'hips first'];
  const { answered } = session('hinge', (question) => faults[question % faults.length] ?? 'held');
  const afterFaults = answered.filter(({ reply }) => reply !== 'held' && reply !== '');

  it('what was not foreseen is made while the line before it is spoken', () => {
    expect(afterFaults.length).toBeGreaterThan(4);
    for (const { waits } of afterFaults) expect(lateIn(waits).length).toBeLessThanOrEqual(1);
  });

  it('the line that is wanted now waits for one that is being made, never for more', () => {
    for (const { waits } of answered) {
      for (const { seconds } of waits) expect(seconds).toBeLessThanOrEqual(2 * MAKING_SECONDS);
    }
  });
});

describe('in the middle of the work', () => {
  it.each(['stop', 'pause', 'that hurts', 'dizzy'])('"%s" is answered at once', (words) => {
    const bench = openBench({ makingSeconds: MAKING_SECONDS });
    bench.clock.runUntil(() => bench.of('beat').length > 0, 600_000);
    const from = bench.waits.length;
    bench.hear(words);
    bench.seconds(3);
    expect(bench.waits.length).toBeGreaterThan(from);
    expect(bench.waits[from]?.seconds).toBe(0);
  });
});
