import type { RecordProblem } from '../../ports';
import { RecordError } from '../../records/problems';

/** Unlike an entry of a session that runs, nothing of this is kept until it is saved again. */
const SAY: Record<RecordProblem['reason'], string> = {
  full: 'This device has no room for it. Free some space, then save it again.',
  refused:
    'This browser does not let the page keep a record, as in a private window, so it is not kept.',
  damaged:
    'The record on this device could not be written. Close other windows of this page, then save it again.',
  differs:
    'Something else is already kept in its place, so it is not kept. Load the page again, and look what is there.',
  unknown: 'It could not be kept on this device. Save it again.',
};

/** Why something that was to be kept is not, and what to do. */
export const notKept = (error: unknown): string => SAY[new RecordError(error).problem.reason];
