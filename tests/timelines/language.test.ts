import { expect, it } from 'vitest';
import { spokenTexts } from '../../src/cues/spoken';
import { numberSpoken } from '../../src/domain/hearing/numbers';
import { book, bookFor, sessionOf } from './sessions';

const spanish = bookFor('spanish-hinge');
const session = sessionOf('spanish-hinge');

it('a session in Spanish comes to the outcome that its findings make', () => {
  const { end, entries, rules } = session;
  expect(end.areas).toMatchObject([{ area: 'hinge', outcome: 'ready', rung: 4 }]);
  expect(end.liftsReady).toEqual(['pulls']);
  expect(end.reason).toBe('completed');
  expect(entries[0]).toMatchObject({ type: 'started', language: 'es' });
  // In at the bell for the knees, the fix, up twice, known pain that went on, tested again.
  expect(rules).toEqual(expect.arrayContaining(['11.1', '3.1', '2.1', '1.2', '4.3', '5.2']));
  expect(end.findings).toContainEqual(
    expect.objectContaining({ prompt: 'set/deadlift', result: 'held', pain: 1 }),
  );
});

it('nothing that is said or shown in it is English', () => {
  const words = (texts: string[]) =>
    new Set(texts.flatMap((text) => text.toLowerCase().match(/\p{L}+/gu) ?? []));
  const english = words(spokenTexts(book).map(({ text }) => text));
  const own = words([
    ...spokenTexts(spanish).map(({ text }) => text),
    ...Object.values(spanish.lines),
    ...Object.values(spanish.checks).map(({ name }) => name),
    ...Object.values(spanish.drills).map(({ name }) => name),
    ...Object.values(spanish.faults).map(({ readback }) => readback),
    ...Object.values(spanish.vocabulary.results).map(({ readback }) => readback),
    ...Object.values(spanish.vocabulary.pain.kinds).map(({ readback }) => readback),
  ]);
  const { areas, liftsMissing, cautions, nextVisit } = session.end;
  const shown = [
    ...session.cues,
    ...areas.flatMap(({ sentence, reasons }) => [sentence, ...reasons]),
    ...liftsMissing.map(({ sentence }) => sentence),
    ...cautions,
    nextVisit.because,
  ];
  expect(session.cues.length).toBeGreaterThan(100);
  const strange = [...words(shown)].filter((word) => english.has(word) && !own.has(word));
  expect(strange).toEqual([]);
  expect([...words(shown)].filter((word) => !own.has(word) && !/^\d/.test(word))).toEqual([]);
});

it('counts aloud in the words of its numbers', () => {
  for (let count = 1; count <= 12; count++)
    expect(spanish.lines[`count.${count}`]).toBe(numberSpoken(spanish.vocabulary.numbers, count));
  expect(session.cues).toEqual(expect.arrayContaining(['uno', 'dos', 'tres', 'seis']));
});
