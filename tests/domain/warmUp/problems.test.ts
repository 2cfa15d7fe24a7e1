import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { secondsOf } from '../../../src/cli/durations';
import { bookOf } from '../../../src/cli/verb';
import { demoOf, idFor } from '../../../src/domain/warmUp/own';
import { warmUpProblems, wordingProblems } from '../../../src/domain/warmUp/problems';
import { blockTyped } from '../../../src/domain/warmUp/typing';
import type { WarmUp, WarmUpBlock, WarmUpPart } from '../../../src/domain/warmUp/warmUp';
import { anyWarmUp } from './anyWarmUp';

const book = bookOf();
const work: WarmUpBlock = {
  ...{ do: 'work', drill: 'wall-hinge', demo: 'Watch once.' },
  workSeconds: 30,
  changeSeconds: 15,
};
const breathe: WarmUpBlock = {
  ...{ do: 'breathe', name: 'long breaths out', demo: 'Lie down.' },
  ...{ breaths: 5, exhaleSeconds: 6, changeSeconds: 15 },
};
const station = { drill: 'wall-hinge', demo: 'Watch once.' };
const together: WarmUpPart = { arrangement: 'together', rounds: 1, blocks: [work, breathe] };
const stations: WarmUpPart = {
  ...{ arrangement: 'stations', rounds: 1, stations: [station, station] },
  ...{ workSeconds: 30, changeSeconds: 15 },
};
const warmUp = (change: object = {}): WarmUp => {
  const mine: WarmUp = { id: 'mine', name: 'my warm-up', parts: [together, stations] };
  return { ...mine, ...change };
};
const found = (of: WarmUp) =>
  warmUpProblems(book, of).map(({ path, problem }) => `${path.join('.')} ${problem}`);
const withBlock = (change: object) =>
  warmUp({ parts: [{ ...together, blocks: [{ ...work, ...change }] }] });
const withBreaths = (change: object) =>
  warmUp({ parts: [{ ...together, blocks: [{ ...breathe, ...change }] }] });
const withStations = (change: object) => warmUp({ parts: [{ ...stations, ...change }] });

describe('what is wrong with a warm-up', () => {
  it('is nothing where the scripts may hold it', () => {
    fc.assert(
      fc.property(anyWarmUp(book), (any) => {
        expect(found(any)).toEqual([]);
      }),
      { numRuns: 50 },
    );
    for (const shipped of Object.values(book.warmUps)) {
      expect(found(shipped)).toEqual([]);
      expect(wordingProblems(book, shipped, secondsOf)).toEqual([]);
    }
  });

  it.each([
    [withBlock({ workSeconds: 19 }), /^parts\.0\.blocks\.0\.workSeconds must be 20 to 40 seconds$/],
    [withBlock({ workSeconds: 41 }), /workSeconds must be 20 to 40/],
    [withBlock({ workSeconds: NaN }), /workSeconds must be 20 to 40/],
    [withBlock({ changeSeconds: 9 }), /changeSeconds must be 10 to 20/],
    [withBlock({ drill: 'wall' }), /drill there is no drill of that name; known: /],
    [withBlock({ drill: 'constructor' }), /drill there is no drill of that name/],
    [withBlock({ demo: ' ' }), /demo must not be empty/],
    [withBreaths({ breaths: 2 }), /breaths must be a whole number, 3 to 6/],
    [withBreaths({ breaths: 3.5 }), /breaths must be a whole number/],
    [withBreaths({ exhaleSeconds: 9 }), /exhaleSeconds must be a whole number, 4 to 8/],
    [withBreaths({ name: '' }), /parts\.0\.blocks\.0\.name must not be empty/],
    [withStations({ workSeconds: 50 }), /parts\.0\.workSeconds must be 20 to 40/],
    [withStations({ changeSeconds: 0 }), /parts\.0\.changeSeconds must be 10 to 20/],
    [withStations({ stations: [station] }), /stations needs at least two stations/],
    [
      withStations({ stations: [station, { ...station, drill: 'x' }] }),
      /^parts\.0\.stations\.1\.drill/,
    ],
    [withStations({ rounds: 5 }), /rounds must be a whole number, 1 to 4/],
    [warmUp({ parts: [] }), /parts needs at least one part/],
    [warmUp({ parts: [{ ...together, blocks: [] }] }), /blocks needs at least one block/],
    [
      warmUp({
        parts: [{ ...together, rounds: 4, blocks: Array.from({ length: 16 }, () => work) }],
      }),
      /^parts has 64 turns in all; 60 at most$/,
    ],
    [warmUp({ name: 'x'.repeat(201) }), /^name is too long/],
    [warmUp({ name: 'one\ntwo' }), /U\+000A/],
    [warmUp({ name: 'safe \u202Eesrever' }), /cannot be seen \(U\+202E\): delete the text/],
    [warmUp({ name: 'right\u200Fto left' }), /U\+200F/],
    [warmUp({ name: 'nothing\u200Bseen' }), /U\+200B/],
    [warmUp({ name: 'half \uD83D' }), /U\+D83D/],
    [warmUp({ name: 'bell\u0007' }), /U\+0007/],
    [warmUp({ name: 'a {name}' }), /without \{ \}/],
    [warmUp({ name: '!!!' }), /has no letter to be spoken/],
  ])('%j', (of, expected) => {
    expect(found(of)).toEqual([expect.stringMatching(expected)]);
  });

  it('a line that would last too long, or be heard as a reply itself, is told with its place', () => {
    const long = 'Stand tall and breathe, '.repeat(8);
    const wordy = warmUp({
      name: 'hold on everybody',
      parts: [
        {
          ...together,
          blocks: [
            { ...work, demo: long },
            { ...breathe, name: 'chest pain' },
          ],
        },
        { ...stations, stations: [{ ...station, demo: 'Stop.' }, station] },
      ],
    });
    const told = wordingProblems(book, wordy, secondsOf);
    expect(told.map(({ path }) => path.join('.'))).toEqual(
      expect.arrayContaining([
        'parts.0.blocks.0.demo',
        'parts.0.blocks.1.name',
        'parts.1.stations.0.demo',
      ]),
    );
    expect(told[0]?.problem ?? '').toMatch(/s to say; less than 10 s is allowed|heard as a reply/);
    expect(told.at(-1)?.problem).toBe('would itself be heard as a reply: stop; word it otherwise');
  });

  it('what good looks like can be said of every drill as its demo', () => {
    for (const drill of Object.values(book.drills)) {
      const mine = withBlock({ drill: drill.id, demo: demoOf(drill) });
      expect(found(mine)).toEqual([]);
      expect(wordingProblems(book, mine, secondsOf)).toEqual([]);
    }
  });
});

describe('a block that is typed', () => {
  it.each([
    ['wall hinge 30 15', ['wall-hinge'], 30, 15],
    ['Hinge, wall', [], null, null],
    ['hinge wall', ['wall-hinge'], null, null],
    ['wall-hi 25', ['wall-hinge'], 25, null],
    ['wall hinge 30/10', ['wall-hinge'], 30, 10],
    ['30', [], null, null],
  ])('"%s"', (typed, drills, workSeconds, changeSeconds) => {
    const block = blockTyped(book, typed);
    expect(block.drills.map(({ id }) => id)).toEqual(drills);
    expect([block.workSeconds, block.changeSeconds]).toEqual([workSeconds, changeSeconds]);
  });

  it('nothing typed may be any drill', () => {
    expect(blockTyped(book, ' ').drills).toHaveLength(Object.keys(book.drills).length);
  });
});

it.each([
  ['The Warm-up: before bar!', [], 'the-warm-up-before-bar'],
  ['Échauffement 2', [], 'echauffement-2'],
  ['42', [], 'warm-up'],
  ['мой', [], 'warm-up'],
  ['mine', ['mine', 'mine-2'], 'mine-3'],
  ['x'.repeat(90), [], 'x'.repeat(40)],
])('"%s" is filed under plain letters that nothing else has', (name, taken, id) => {
  expect(idFor(name, taken)).toBe(id);
});
