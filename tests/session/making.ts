import type { Cancel, Clock } from '../../src/ports';

interface Job {
  text: string;
  then: (() => void)[];
}

/**
 * How the shipped voice makes its lines: one at a time, a line that is to be said before all that
 * are only prepared, and each once.
 */
export function createMaking(clock: Clock, secondsALine: number) {
  const made = new Set<string>();
  const waits: { text: string; seconds: number }[] = [];
  let queue: Job[] = [];
  let working: Job | null = null;

  const next = () => {
    working ??= queue.shift() ?? null;
    const job = working;
    if (job === null || made.has(job.text)) return;
    clock.setTimeout(() => {
      made.add(job.text);
      working = null;
      next();
      for (const run of job.then) run();
    }, secondsALine * 1000);
  };
  const jobOf = (text: string): Job => {
    const job = [working, ...queue].find((each) => each?.text === text);
    return job ?? { text, then: [] };
  };
  return {
    /** How long each line that was said had to wait for its sound. */
    waits,
    prepare(texts: string[]) {
      const isBusy = working !== null;
      for (const text of texts) {
        const job = jobOf(text);
        if (!made.has(text) && job !== working && !queue.includes(job)) queue.push(job);
      }
      if (!isBusy) next();
    },
    whenMade(text: string, then: () => void): Cancel {
      let wanted = true;
      const from = clock.now();
      const run = () => {
        if (!wanted) return;
        waits.push({ text, seconds: (clock.now() - from) / 1000 });
        then();
      };
      if (secondsALine === 0 || made.has(text)) run();
      else {
        const isBusy = working !== null;
        const job = jobOf(text);
        job.then.push(run);
        if (job !== working) queue = [job, ...queue.filter((each) => each !== job)];
        if (!isBusy) next();
      }
      return () => {
        wanted = false;
      };
    },
  };
}
