/** The shape of each entry of the log in a saved record. */
import { z } from 'zod';
import { AREAS, WAYS } from '../domain/areas';
import { SEXES } from '../domain/athlete';
import { ANGLE_TOOLS, RED_FLAGS, RESULTS } from '../domain/findings';
import { COMMANDS, type Reading } from '../domain/hearing/reply';
import { WORDS, type Entry } from '../domain/log';
import { between, fields, id, moment, oneOf, SECONDS_MOST } from './fields';
import { homeworkDaySchema } from './handover';

const text = z.string();
const area = oneOf(AREAS);
const side = oneOf(['left', 'right']);
const result = oneOf(RESULTS);
const tool = oneOf(ANGLE_TOOLS);
const load = oneOf(['as-written', 'lighter', 'heavier', 'raised', 'shallower', 'unloaded']);
const painKind = oneOf(['new', 'sharp', 'known']);
const redFlag = oneOf(RED_FLAGS);
const sideOrBoth = oneOf(['left', 'right', 'both']).nullable();
const angleDegrees = between(0, 360).nullable();
const pain = between(0, 10);
const painOrNot = z.union([pain, z.literal('unanswered')], {
  error: 'must be a number, 0 to 10, or unanswered',
});
const kindOrNot = oneOf(['new', 'sharp', 'known', 'unanswered']);
const confidence = between(0, 1);
const source = fields({ by: oneOf(['voice', 'hand']), text, confidence });

const reply = fields({
  command: oneOf(COMMANDS).nullable(),
  target: id.nullable(),
  side: sideOrBoth,
  result: result.nullable(),
  faults: z.array(id),
  angleDegrees,
  pain: pain.nullable(),
  painKind: painKind.nullable(),
  redFlag: redFlag.nullable(),
  same: z.boolean(),
});
const verdict = oneOf(['accept', 'confirm', 'ignore']);
const reading: z.ZodType<Reading> = z.lazy(() =>
  fields({
    heard: text,
    verdict,
    reply: reply.nullable(),
    confidence,
    readback: text.nullable(),
    asks: oneOf(['limited-or-lost', 'pass', 'grade', 'one-side']).exactOptional(),
    and: reply.exactOptional(),
    other: reading.exactOptional(),
    picks: oneOf(['first', 'second']).exactOptional(),
    corrects: z.literal(true).exactOptional(),
  }),
);

const length = between(0, 10_000);
const athlete = fields({
  statureMillimetres: length.exactOptional(),
  kneeMillimetres: length.exactOptional(),
  ageYears: between(0, 150).exactOptional(),
  sex: oneOf(SEXES).exactOptional(),
  soleMillimetres: length.exactOptional(),
  bellHandleMillimetres: length.exactOptional(),
  blocksMillimetres: z.array(length).exactOptional(),
});
const settings = fields({
  passLineDegrees: between(0, 360),
  painGoesOnUpTo: pain,
  painRefersAbove: pain,
  areaMinutes: between(0, 1000),
  ladderSets: between(0, 1000),
  words: oneOf(WORDS),
});

const fact = <T extends string, S extends z.ZodRawShape>(type: T, shape: S) =>
  fields({
    type: z.literal(type),
    id: id.regex(/^.+:[^:]+:\d+$/, 'must be session:device:number'),
    atSeconds: between(0, SECONDS_MOST),
    ...shape,
  });
const finding = {
  prompt: id,
  check: id.nullable(),
  drill: id.nullable(),
  load: load.nullable(),
  side: sideOrBoth,
  result,
  faults: z.array(id),
  angleDegrees,
  tool: tool.nullable(),
};

const facts = [
  fact('started', {
    routine: id,
    language: id,
    way: oneOf(WAYS),
    startedAt: moment,
    settings,
    person: id.exactOptional(),
    missing: z.array(id).exactOptional(),
    allowedAlone: z.array(id).exactOptional(),
    athlete: athlete.exactOptional(),
    angleTool: tool.exactOptional(),
    callWord: text.exactOptional(),
    blockHeightMillimetres: length.nullable().exactOptional(),
    homework: homeworkDaySchema.exactOptional(),
  }),
  fact('asked', { prompt: id, side: side.nullable() }),
  fact('heard', {
    prompt: id,
    text,
    verdict,
    reply: reply.nullable(),
    confidence: confidence.exactOptional(),
    and: reply.exactOptional(),
    other: reading.exactOptional(),
  }),
  fact('finding', {
    ...finding,
    pain: pain.nullable(),
    source,
    asksPain: z.boolean().exactOptional(),
    shinDegrees: between(0, 180).exactOptional(),
  }),
  fact('pain-number', { pain: painOrNot, source: source.nullable() }),
  fact('pain-kind', { kind: kindOrNot, source: source.nullable() }),
  fact('morning', { area, pain: painOrNot, source: source.nullable() }),
  fact('red-flag', { flag: redFlag, prompt: id, source }),
  fact('overrule', {
    command: oneOf(['again', 'skip', 'next', 'back', 'lighter', 'heavier', 'go-to']),
    target: id.nullable(),
    source,
  }),
  fact('halted', { source }),
  fact('end-answered', { end: z.boolean(), source }),
  fact('paused', { source }),
  fact('resumed', { source }),
  fact('words', { words: oneOf(WORDS), source }),
  fact('undone', { entry: id, source }),
  fact('decision', {
    rule: id,
    because: text,
    area: area.nullable(),
    from: text.nullable(),
    to: text.nullable(),
    by: oneOf(['rules', 'coach']),
  }),
  fact('outcome', {
    area,
    outcome: oneOf(['ready', 'working', 'referred', 'unfinished']),
    rung: between(0, 100).nullable(),
  }),
  fact('ended', { reason: oneOf(['completed', 'stopped', 'red-flag', 'replies-ended']) }),
  fact('corrected', {
    ...finding,
    entry: id,
    of: side.nullable(),
    pain: painOrNot.nullable(),
    painKind: kindOrNot.nullable(),
    correctedAt: moment,
    source,
  }),
] as const;

const damaged = fields({
  type: z.literal('damaged'),
  id: text.describe('Of the entry that stood there'),
  checksum: text.describe('CRC-32 that was kept beside it'),
  was: text.describe('What was left of it'),
}).describe('In the place of an entry that is not as it was written; nothing is graded from it');

const TYPES = [...facts, damaged].map(({ shape }) => shape.type.value);
const error = `must be one of ${TYPES.join(', ')}`;

/** An entry of the log. */
export const entrySchema: z.ZodType<Entry> = z.discriminatedUnion('type', facts, { error });

/** What stands in the log of a session. */
export const itemSchema = z.discriminatedUnion('type', [...facts, damaged], { error });
