import fc from 'fast-check';
import { expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { draftOf, moved, warmUpFrom } from '../../src/screens/warmUp/builder/draft';
import { anyWarmUp } from '../domain/warmUp/anyWarmUp';

const book = bookOf();

it('whatever warm-up is opened in the builder comes out of it as it went in', () => {
  fc.assert(
    fc.property(anyWarmUp(book), (warmUp) => {
      expect(warmUpFrom(book, draftOf(book, warmUp))).toEqual(warmUp);
    }),
    { numRuns: 200 },
  );
});

it('what is moved comes to lie where it was taken, and the others keep their order', () => {
  fc.assert(
    fc.property(
      fc.uniqueArray(fc.nat(), { minLength: 1 }),
      fc.nat(),
      fc.nat(),
      (list, from, to) => {
        const [one, other] = [from % list.length, to % list.length];
        const after = moved(list, one, other);
        expect(after[other]).toBe(list[one]);
        expect(after.filter((each) => each !== list[one])).toEqual(
          list.filter((each) => each !== list[one]),
        );
      },
    ),
  );
});
