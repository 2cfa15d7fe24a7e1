import { describe, expect, it } from 'vitest';
import { loadBook } from '../../../src/cues/fromFolder';
import { DEFAULT_SETTINGS } from '../../../src/domain/log';
import { readbackOf } from '../../../src/domain/hearing/readback';
import type { CueBook } from '../../../src/domain/script';
import { NO_REPLY, type Reply } from '../../../src/domain/hearing/reply';
import { understand } from '../../../src/domain/hearing/understanding';

const book = loadBook('scripts-cues', 'en');
const SIDES = [null, 'left', 'right', 'both'] as const;
const RESULTS = ['held', 'lost', 'short', 'not-tested'] as const;
const FAULTS = [null, ...Object.keys(book.faults)];
const ANGLES = [null, 20, 45, 90, 105, 140, 155, 180, 200];

/** Every reply of a side, a result, up to one fault, with or without an angle. */
const every = SIDES.flatMap((side) =>
  RESULTS.flatMap((result) =>
    FAULTS.flatMap((fault) =>
      ANGLES.map((angleDegrees) => ({
        ...NO_REPLY,
        side,
        result,
        faults: fault === null ? [] : [fault],
        angleDegrees,
      })),
    ),
  ),
);
const spoken = (angleDegrees: number | null): string =>
  readbackOf(book, { ...NO_REPLY, angleDegrees }) ?? 'none';
const unitsOf = (reply: Reply): string[] => (readbackOf(book, reply) ?? '').split(', ');

/** Every reply to a check or drill: side, result, up to two of its faults, with or without an angle. */
function everyReplyOf(of: CueBook): Reply[] {
  const asked = [...Object.values(of.checks), ...Object.values(of.drills)];
  return asked.flatMap((script) => {
    const named = 'faults' in script ? script.faults : script.fixes.map(({ fault }) => fault);
    const faultSets = [
      [],
      ...named.map((fault) => [fault]),
      ...named.flatMap((one, at) => named.slice(at + 1).map((other) => [one, other])),
    ];
    return (script.sided ? SIDES : [null]).flatMap((side) =>
      faultSets.flatMap((faults) =>
        [...RESULTS, 'pain' as const].flatMap((result) =>
          [null, 60, 105, 140, 145].map((angleDegrees) => ({
            ...NO_REPLY,
            ...{ side, result, faults, angleDegrees },
          })),
        ),
      ),
    );
  });
}
/** A fault by itself says its result; beside another result both are said, to be put right. */
const isPlain = (of: CueBook, { result, faults }: Reply): boolean =>
  faults.length === 0 ||
  faults.some((fault) => result === (of.faults[fault]?.kind === 'position' ? 'lost' : 'short'));

describe.each(['en', 'es'])('what is read back in %s', (language) => {
  const of = language === 'en' ? book : loadBook('scripts-cues', language);
  const read = (reply: Reply): string => readbackOf(of, reply) ?? '';
  const wordsOf = (reply: Reply): number => read(reply).split(/[ ,]+/).filter(Boolean).length;
  const all = everyReplyOf(of).filter((reply) => isPlain(of, reply));

  it('is at most four words: side, result and a fault, or two faults', () => {
    const short = all.filter(
      ({ side, faults, angleDegrees }) =>
        angleDegrees === null && (faults.length < 2 || side === null),
    );
    expect(short.length).toBeGreaterThan(100);
    expect(short.filter((reply) => wordsOf(reply) > 4).map(read)).toEqual([]);
  });

  it('is longer by the words of an angle and of a second fault, and by nothing else', () => {
    const longer = all.filter((reply) => {
      const angle = wordsOf({ ...NO_REPLY, angleDegrees: reply.angleDegrees });
      const second = wordsOf({ ...NO_REPLY, faults: reply.faults.slice(1) });
      return wordsOf(reply) - angle - second > (reply.side === null ? 3 : 4);
    });
    expect(longer.map(read)).toEqual([]);
  });
});

describe('what is read back', () => {
  it('has at most four units, each of at most three words', () => {
    for (const reply of every) {
      const units = unitsOf(reply);
      expect(units.length, units.join(', ')).toBeLessThanOrEqual(4);
      for (const unit of units) expect(unit.split(' ').length, unit).toBeLessThanOrEqual(3);
    }
  });

  it('drops no side, angle, result or fault, whatever is said with it', () => {
    const named = (fault: string) =>
      book.vocabulary.faults.find(({ id }) => id === fault)?.readback ?? fault;
    for (const reply of every) {
      const { side, result, faults, angleDegrees } = reply;
      const units = unitsOf(reply);
      if (side !== null) expect(units[0]).toBe(book.vocabulary.sides[side].readback);
      for (const fault of faults) expect(units).toContain(named(fault));
      const isSaid = units.includes(book.vocabulary.results[result].readback);
      const kind = faults.map((fault) => book.faults[fault]?.kind)[0];
      expect(isSaid || kind === (result === 'lost' ? 'position' : 'range'), units.join()).toBe(
        true,
      );
      expect(units.includes(spoken(angleDegrees))).toBe(angleDegrees !== null);
    }
  });

  it.each(ANGLES.flatMap((angle) => angle ?? []))('reads %i back as that number', (angle) => {
    const { reply } = understand(book, 'check/overhead-passive', `${spoken(angle)}, pass`, {
      ...DEFAULT_SETTINGS,
      confidence: 1,
    });
    expect(reply?.angleDegrees).toBe(angle);
  });

  it('says every further fault, and pain with its number and kind, however long it becomes', () => {
    const reply: Reply = {
      ...NO_REPLY,
      side: 'left',
      result: 'pain',
      faults: ['ribs-flared', 'back-arched'],
      angleDegrees: 140,
      pain: 4,
      painKind: 'sharp',
    };
    expect(readbackOf(book, reply)).toBe('left, one forty, ribs, back arched, sharp pain four');
  });
});
