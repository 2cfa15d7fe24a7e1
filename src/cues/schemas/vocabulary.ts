import { z } from 'zod';
import { AREAS } from '../../domain/areas';
import { RED_FLAGS } from '../../domain/findings';
import { COMMANDS } from '../../domain/hearing/reply';
import { RESULT_WORDS, type SpokenCommand, type Vocabulary } from '../../domain/hearing/vocabulary';

const words = (pattern: RegExp, allowed: string) =>
  z.string().regex(pattern, `allowed: ${allowed}; write it in lower case without punctuation`);

/** A phrase with `(left out|or one of)?` and `(one|of)` groups. */
const LETTER = String.raw`\p{Ll}`;
const ONE = String.raw`(?:[${LETTER}0-9']+|\([${LETTER}0-9' |]+\)\??)`;
const phrase = words(
  new RegExp(`^${ONE}(?: ${ONE})*$`, 'u'),
  'words separated by single spaces, (left out|or one of)?, (one|of)',
);
const word = words(/^[\p{Ll}']+$/u, 'one word');
const name = z
  .string()
  .regex(
    /^[a-z][a-z0-9-]*$/,
    'allowed: lower-case letters, digits and hyphens, such as ribs-flared',
  );

const phrases = z.array(phrase).default([]);
const ways = z.strictObject({
  say: z.array(phrase).min(1, 'allowed: at least one way that the recogniser listens for'),
  also: phrases,
});
const readable = ways.extend({ readback: z.string().min(1, 'allowed: the words to read back') });

/** A record that must hold every one of these keys and no other. */
const every = <K extends string, T extends z.ZodType>(keys: readonly K[], value: T) =>
  z.record(z.enum(keys), value);

const spokenCommands = COMMANDS.filter((command): command is SpokenCommand => command !== 'go-to');

const sign = z.strictObject({
  about: z.array(name).min(1, 'allowed: names under parts'),
  is: z.array(name).default([]),
  isNot: z.array(name).default([]),
});

const fault = ways.extend({
  id: name,
  kind: z.enum(['position', 'range']),
  areas: z.array(z.enum(AREAS)).min(1, `allowed: ${AREAS.join(', ')}`),
  readback: z.string().min(1, 'allowed: the fewest words that still name the fault'),
  signs: z.array(sign).default([]),
});

const value = z.number().int().min(0).max(90);

const numbers = z.strictObject({
  words: z.record(word, value),
  hundred: z.array(word),
  hundreds: z.record(word, z.number().int().min(100).max(900)).default({}),
  and: z.array(word),
  tensAnd: z.array(word).default([]),
  beforeNoun: z.record(word, word).default({}),
  zeroInside: z.array(word),
  degrees: phrases,
  ofTen: phrases,
  counted: phrases,
  counting: phrases,
  onRep: phrases,
  inPlace: phrases,
  minus: z.array(word).default([]),
  between: phrases,
  soundsLike: z.record(word, value).default({}),
});

const talk = z.strictObject({
  negators: phrases,
  refusals: phrases,
  refusalsApart: phrases,
  corrections: phrases,
  praise: phrases,
  orders: phrases,
  addressing: phrases,
  asking: phrases,
  askedOf: phrases,
  questions: phrases,
  past: phrases,
  likenesses: phrases,
  unsure: phrases,
  keeping: phrases,
  likewise: phrases,
  joins: phrases,
  telling: phrases,
  polite: phrases,
  circumstances: phrases,
  fillers: phrases,
});

const loosely = z.strictObject({
  small: z.array(word),
  told: z.array(word),
  before: phrases,
  after: phrases,
  redFlags: z.partialRecord(z.enum(RED_FLAGS), phrases),
  commands: z.partialRecord(z.enum(spokenCommands), phrases),
});

/** vocabulary.yaml: every reply of a language once. Refuses unknown fields and dangling names. */
export const vocabularySchema: z.ZodType<Vocabulary> = z
  .strictObject({
    language: z.string().regex(/^[a-z]{2,3}$/, 'allowed: a language code such as en'),
    numbers,
    sides: every(['left', 'right', 'both'] as const, readable),
    adjectivesStand: z.enum(['before', 'after']),
    sideVerbs: z.array(word).default([]),
    same: ways.extend({
      beforeSide: ways,
      afterSide: ways,
      readback: every(['alone', 'left', 'right', 'both'] as const, z.string().min(1)),
    }),
    results: every(RESULT_WORDS, readable),
    parts: z.record(name, z.array(phrase).min(1)),
    states: z.record(
      name,
      z.strictObject({
        words: phrases,
        nouns: phrases,
        alone: z.boolean().default(false),
        ofOnlyFault: z.array(name).default([]),
      }),
    ),
    faults: z.array(fault).min(1),
    pain: z.strictObject({
      readback: z.string().min(1),
      words: ways,
      none: ways,
      nothing: phrases,
      kinds: every(['new', 'sharp', 'known'] as const, readable.extend({ before: phrases })),
      sharpWords: ways,
      notPain: phrases,
      places: phrases,
    }),
    redFlags: every(RED_FLAGS, readable),
    commands: every(spokenCommands, readable),
    stopWords: z.array(word).min(1, 'allowed: at least one word that asks to stop'),
    afterNo: z.array(word).default([]),
    unclearCommands: z
      .array(z.strictObject({ command: z.enum(spokenCommands), words: z.array(phrase).min(1) }))
      .default([]),
    goTo: z.strictObject({
      openers: ways.extend({ wholeNames: phrases }),
      readback: z.string().min(1),
      which: z.string().min(1),
      articles: z.array(word).default([]),
      joiners: z.array(word).default([]),
      kindStands: z.enum(['first', 'last']),
      idsAreNames: z.boolean().default(false),
      names: z.record(name, z.array(phrase).min(1)).default({}),
    }),
    either: every(['first', 'second'] as const, readable),
    oneSide: z.string().min(1),
    noFault: z.string().min(1),
    mayPass: phrases,
    doubts: z.strictObject({ notAPass: z.string().min(1), underTheLine: z.string().min(1) }),
    talk,
    loosely: loosely.default({
      ...{ small: [], told: [], before: [], after: [] },
      ...{ redFlags: {}, commands: {} },
    }),
    adverbEndings: z.array(word).default([]),
    endings: z.array(word).default([]),
    endingsFor: z.array(word).default([]),
    doublesLetters: z.boolean().default(false),
    plainWord: word,
    soundsLike: z.record(word, word).default({}),
  })
  .superRefine((vocabulary, context) => {
    const parts = Object.keys(vocabulary.parts);
    const states = Object.keys(vocabulary.states);
    const refuse = (path: PropertyKey[], message: string) => {
      context.addIssue({ code: 'custom', path, message });
    };
    const seen = new Set<string>();
    vocabulary.faults.forEach((each, at) => {
      if (seen.has(each.id)) refuse(['faults', at, 'id'], `${each.id} is already listed above`);
      seen.add(each.id);
      each.signs.forEach((signOfFault, index) => {
        const known = { about: parts, is: states, isNot: states };
        for (const field of ['about', 'is', 'isNot'] as const)
          signOfFault[field].forEach((id, place) => {
            if (!known[field].includes(id))
              refuse(
                ['faults', at, 'signs', index, field, place],
                `unknown name ${id}; allowed: ${known[field].join(', ')}`,
              );
          });
      });
    });
  });
