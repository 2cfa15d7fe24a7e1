/** The shape of what a coach hands over to an athlete. */
import { z } from 'zod';
import { AREAS } from '../domain/areas';
import type { Handover } from '../domain/handover/handover';
import { LEFT_WHYS, TASK_WHYS, type HomeworkDay } from '../domain/handover/progressDay';
import { count } from '../cues/schemas/fields';
import { between, fields, id, moment, oneOf } from './fields';

/** More than any book of cues has. */
const IDS_MOST = 100;
const ids = z.array(id).max(IDS_MOST, `must be at most ${IDS_MOST}`);

const rung = {
  drill: id,
  rung: count(1, 100),
  load: oneOf(['as-written', 'lighter', 'raised', 'shallower', 'unloaded']),
};
const area = oneOf(AREAS);
const task = fields({ area, ...rung });

/** The name of what was handed over. */
export const handoverId = z.string().regex(/^[0-9a-f]{16}$/, 'must be 16 hexadecimal digits');

export const handoverSchema: z.ZodType<Handover> = fields({
  id: handoverId,
  language: z.string().regex(/^[a-z]{2,3}$/, 'must be a code such as en'),
  madeAt: moment,
  tasks: z.array(task).min(1, 'must have a drill').max(AREAS.length, 'must be one drill an area'),
  missing: ids,
  allowedAlone: ids,
  painGoesOnUpTo: between(0, 10),
  painRefersAbove: between(0, 10),
});

/** What is done of it on one day, as a log begins with it. */
export const homeworkDaySchema: z.ZodType<HomeworkDay> = fields({
  handover: handoverSchema,
  tasks: z
    .array(
      fields({
        ...{ area, ...rung, may: ids },
        why: oneOf(TASK_WHYS),
        before: fields({ ...rung, daysAgo: count(1, 36_500) }).nullable(),
      }),
    )
    .max(AREAS.length),
  left: z.array(fields({ area, why: oneOf(LEFT_WHYS) })).max(AREAS.length),
});
