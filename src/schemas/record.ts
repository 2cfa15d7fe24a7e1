/** The shape of a saved record; `scripts-cues/record.schema.json` is made of it. */
import { z } from 'zod';
import { SEXES } from '../domain/athlete';
import { ANGLE_TOOLS } from '../domain/findings';
import type { WholeRecord } from '../domain/keeping/wholeRecord';
import { KNEE, STATURE } from '../domain/measuring/length';
import { personFrom, type PersonFields } from '../domain/people/personFrom';
import { NOTE_LETTERS_MOST } from '../domain/reporting/note';
import { itemSchema } from './entry';
import { between, fields, id, MILLISECONDS_MOST, moment, oneOf } from './fields';
import { handoverId } from './handover';

export const FORMAT = 'sayso-record';
export const VERSION = 1;

/** More than may be typed of a person, in the units of a text. */
const TYPED_MOST = 1000;

/** Words about a person, held to what may be typed: length, letters, nothing that cannot be seen. */
const typed = (field: 'name' | 'squad' | 'mindText') =>
  z.string().check(({ value, issues }) => {
    // Tidying up a text of megabytes takes minutes.
    if (value.length > TYPED_MOST) {
      const say = `must have at most ${TYPED_MOST} letters`;
      return void issues.push({ code: 'custom', message: say, input: value });
    }
    const given: PersonFields = { name: 'A', [field]: value };
    const { person, problems } = personFrom(given, { id: '', today: '2031-03-01' });
    const isTidy = person === null || (person[field] ?? '') === value;
    const message =
      problems[0]?.say ?? (isTidy ? null : 'has spaces or letters that Sayso does not keep');
    if (message !== null) issues.push({ code: 'custom', message, input: value });
  });

const person = fields({
  id,
  name: typed('name'),
  squad: typed('squad').nullable(),
  birthYear: z.int().min(1900).max(2200).nullable(),
  sex: oneOf(SEXES).nullable(),
  statureMillimetres: between(STATURE.from, STATURE.to).nullable(),
  kneeMillimetres: between(KNEE.from, KNEE.to).nullable(),
  angleTool: oneOf(ANGLE_TOOLS).nullable(),
  mindText: typed('mindText'),
  guardianAgreedOn: z.iso.date('must be a date, like "2031-03-01"').nullable(),
  handovers: z
    .array(handoverId)
    .max(100, 'must be at most 100')
    .exactOptional()
    .describe('Homework that was handed over to them, by id'),
  isInvented: z.literal(false, 'must be false: the invented club is not brought in'),
  changedAt: between(0, MILLISECONDS_MOST).describe(
    'Milliseconds since 1970; the later one counts',
  ),
});

const session = fields({
  session: id,
  entries: z.array(itemSchema).min(1, 'must have an entry').describe('In their order'),
});

const note = fields({
  id,
  session: id,
  person: id.nullable(),
  text: z
    .string()
    .refine(
      (value) => value.length <= 2 * NOTE_LETTERS_MOST && [...value].length <= NOTE_LETTERS_MOST,
      {
        error: `must have at most ${NOTE_LETTERS_MOST} letters`,
      },
    ),
  writtenAt: moment,
});

const tombstone = fields({
  id,
  kind: oneOf(['person', 'note']),
  erasedAt: moment,
}).describe('Of somebody who was erased, or a note that was removed: it never comes back');

/** The whole file, as written: `format` and `version` first, `checksum` last. */
export const recordFileSchema = fields({
  format: z.literal(FORMAT),
  version: z.literal(VERSION),
  madeAt: moment,
  people: z.array(person),
  sessions: z.array(session),
  notes: z.array(note),
  erased: z.array(tombstone),
  checksum: z
    .string()
    .regex(/^[0-9a-f]{64}$/, 'must be 64 hexadecimal digits')
    .describe('SHA-256 of all bytes of the file (UTF-8) before the comma in front of this name'),
}) satisfies z.ZodType<WholeRecord & { madeAt: string }>;
