/** The shape of what travels between a coach and an athlete, as a text. */
import { z } from 'zod';
import type { HomeworkReport } from '../../domain/handover/returning';
import { entrySchema } from '../../schemas/entry';
import { fields, id, moment } from '../../schemas/fields';
import { handoverId, handoverSchema } from '../../schemas/handover';

export const FORMATS = { homework: 'sayso-homework', report: 'sayso-homework-report' } as const;
export const VERSION = 1;

/** A year of homework, twice a day. */
const SESSIONS_MOST = 730;
/** Ten times what a session of three drills has. */
const ENTRIES_MOST = 2000;

const head = <T extends string>(format: T) => ({
  format: z.literal(format),
  version: z.literal(VERSION),
  checksum: z.string(),
});

export const homeworkFileSchema = fields({
  ...head(FORMATS.homework),
  handover: handoverSchema,
});

const session = fields({
  session: id.regex(/^[^:]+$/, 'must have no colon'),
  entries: z
    .array(entrySchema)
    .min(1, 'must have an entry')
    .max(ENTRIES_MOST, `must be at most ${ENTRIES_MOST}`),
});

export const reportFileSchema = fields({
  ...head(FORMATS.report),
  madeAt: moment,
  handover: handoverId,
  sessions: z
    .array(session)
    .min(1, 'must have a session')
    .max(SESSIONS_MOST, `must be at most ${SESSIONS_MOST}`),
}) satisfies z.ZodType<HomeworkReport & { madeAt: string }>;
