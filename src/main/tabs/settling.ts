import type { Entry } from '../../domain/log';
import type { Records } from '../../ports';

/** Records that tell when all that was handed to them is on the disk. */
export interface SettlingRecords extends Records {
  /** Rejects where something is held that could not be written, with a problem as `Records` tells it. */
  settled(): Promise<void>;
}

export function settling(records: Records): SettlingRecords {
  let onTheirWay = 0;
  let last: Entry | null = null;
  let tellSettled: (() => void)[] = [];
  const allAnswered = () =>
    onTheirWay === 0
      ? Promise.resolve()
      : new Promise<void>((resolve) => {
          tellSettled.push(resolve);
        });
  return {
    ...records,
    append(entry, done) {
      onTheirWay += 1;
      last = entry;
      records.append(entry, (problem) => {
        onTheirWay -= 1;
        done(problem);
        if (onTheirWay > 0) return;
        for (const tell of tellSettled) tell();
        tellSettled = [];
      });
    },
    async settled() {
      let seen: Entry | null;
      do {
        await allAnswered();
        seen = last;
        // Refused where something of its session is still held.
        if (seen !== null) await records.addAll([seen]);
      } while (onTheirWay > 0 || last !== seen);
    },
  };
}
