import { z } from 'zod';
import type { Handover } from '../../domain/handover/handover';
import { strictJson } from '../../domain/keeping/strictJson';
import { fields } from '../../schemas/fields';
import { handoverSchema } from '../../schemas/handover';
import { keptText } from '../keptText';
import type { TextStorage } from '../lock/personalTexts';
import { KEPT_KEY } from './homeworkKey';

/** More at a time nobody does; the oldest goes. */
const KEPT_MOST = 10;

const FORMAT = 'sayso-homework-kept-1';
const shape = fields({ format: z.literal(FORMAT), kept: z.array(handoverSchema) });

/** Keeps on this device what was handed over to whoever uses it, newest first. */
export interface HomeworkShelf {
  /** Empty where nothing is kept, or what is kept is no homework any more. */
  load(): Handover[];
  /** Keeps it, before all others; the same homework once. */
  keep(handover: Handover): void;
  remove(id: string): void;
}

/** In the page's storage. */
export function createHomeworkShelf(storage: () => TextStorage): HomeworkShelf {
  const text = keptText(storage, KEPT_KEY);
  const load = (): Handover[] => {
    try {
      return shape.parse(strictJson(text.load() ?? '')).kept;
    } catch {
      return [];
    }
  };
  const save = (kept: Handover[]) => text.save(JSON.stringify({ format: FORMAT, kept }));
  const others = (id: string) => load().filter((one) => one.id !== id);
  return {
    load,
    keep: (handover) => save([handover, ...others(handover.id)].slice(0, KEPT_MOST)),
    remove: (id) => save(others(id)),
  };
}
