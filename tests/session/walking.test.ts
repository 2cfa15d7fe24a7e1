import { describe, expect, it } from 'vitest';
import { getShortestPaths } from 'xstate/graph';
import { linesMachine } from '../../src/session/linesMachine';
import { questionMachine } from '../../src/session/questionMachine';
import { live } from '../../src/domain/deciding/deciding';
import { understand } from '../../src/domain/hearing/understanding';
import { TONE_SECONDS } from '../../src/ports';
import { promptsOf } from '../../src/domain/hearing/prompts';
import { meaningOf } from '../../src/session/meaning';
import { book, openBench, type Bench } from './bench';
import { seeded } from './seeded';

/** What is said, done or waited for in a walk; one letter of a path each. */
const ACTS: Record<string, (bench: Bench) => void> = {
  'a moment': (bench) => bench.seconds(3),
  'half a minute': (bench) => bench.seconds(31),
  'to the question': (bench) => bench.untilAsked(),
  clean: (bench) => bench.hear('clean'),
  'knees forward': (bench) => bench.hear('knees forward'),
  limited: (bench) => bench.hear('limited'),
  unsure: (bench) => bench.hear('pass but knees forward'),
  yes: (bench) => bench.hear('yes'),
  no: (bench) => bench.hear('no'),
  'pain two': (bench) => bench.hear('pain two'),
  'pain four': (bench) => bench.hear('pain four'),
  pain: (bench) => bench.hear('pain'),
  known: (bench) => bench.hear('known'),
  sharp: (bench) => bench.hear('sharp'),
  pause: (bench) => bench.hear('pause'),
  resume: (bench) => bench.hear('resume'),
  undo: (bench) => bench.hear('undo'),
  skip: (bench) => bench.hear('skip'),
  'one more': (bench) => bench.hear('one more'),
  lighter: (bench) => bench.hear('lighter'),
  heavier: (bench) => bench.hear('heavier'),
  'go to the deadlift': (bench) => bench.hear('skip to the deadlift'),
  help: (bench) => bench.hear('help'),
  repeat: (bench) => bench.hear('say that again'),
  ready: (bench) => bench.hear('ready'),
  done: (bench) => bench.hear('done'),
  stop: (bench) => bench.hear('stop'),
  talk: (bench) => bench.hear('push your hips back'),
};
const NAMES = Object.keys(ACTS);
/** Mostly ordinary answers, so that walks come far. */
const USUAL = ['to the question', 'clean', 'to the question', 'knees forward', 'yes'];

/** Replays a path from the start of a session. */
function walk(path: string[]): Bench {
  const bench = openBench();
  for (const act of path) {
    if (bench.isOver()) break;
    ACTS[act]?.(bench);
  }
  return bench;
}

const paths = (count: number, steps: number, seed: number): string[][] => {
  const random = seeded(seed);
  const pick = <T>(from: T[]): T => from[Math.floor(random() * from.length)] as T;
  return Array.from({ length: count }, () =>
    Array.from({ length: steps }, () => pick(random() < 0.5 ? USUAL : NAMES)),
  );
};

/** One path to every kind of moment that the walks came to: state, phase, prompt. */
function momentsOf(walks: string[][]): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const path of walks) {
    const bench = openBench();
    path.forEach((act, at) => {
      if (bench.isOver()) return;
      ACTS[act]?.(bench);
      const moment = `${bench.state()} ${bench.prompt()}`;
      if (!bench.isOver() && !found.has(moment)) found.set(moment, path.slice(0, at + 1));
    });
  }
  return found;
}

const walks = paths(150, 40, 7);
const moments = momentsOf(walks);

describe('every path through a session', () => {
  it('comes to every state and prompt of the hinge', () => {
    const reached = [...moments.keys()].join('\n');
    for (const name of ['telling', 'checking', 'training', 'asking', 'aside', 'paused']) {
      expect(reached).toContain(name);
    }
    // Alternates stand in only where something is missing.
    const alternates = book.ladders.hinge?.rungs.flatMap((rung) => rung.alternates ?? []) ?? [];
    const standIns = alternates.map((drill) => `set/${drill}`);
    for (const { prompt } of promptsOf(book)) {
      if (standIns.includes(prompt)) continue;
      if (/hinge|deadlift|pain|confirm|idle/.test(prompt)) expect(reached).toContain(prompt);
    }
  });

  it('"stop" halts within one event from everywhere, and only a yes ends', () => {
    for (const [moment, path] of moments) {
      const bench = walk(path);
      const halted = bench.logged('halted').length;
      bench.hear('stop');
      if (bench.of('end').length > 0 || moment.includes('concluding')) continue;
      expect(bench.tones.at(-1), moment).toBe('halted');
      bench.seconds(TONE_SECONDS.halted);
      expect(bench.sounding(), moment).toBe(book.lines['confirm.end']);
      expect(bench.logged('halted').length, moment).toBeGreaterThanOrEqual(Math.max(1, halted));
      bench.seconds(120);
      expect(bench.isOver(), moment).toBe(false);
      bench.hear('no');
      expect(bench.logged('ended'), moment).toEqual([]);
    }
  });

  it('"stop", then a yes, ends from everywhere with the record closed', () => {
    for (const [moment, path] of moments) {
      const bench = walk(path);
      if (moment.includes('concluding')) continue;
      bench.hear('stop');
      bench.hear('yes');
      bench.seconds(120);
      expect(bench.of('end').at(-1)?.reason, moment).toBe('stopped');
      expect(bench.logged('ended'), moment).toHaveLength(1);
    }
  });

  it('a red flag ends from everywhere', () => {
    for (const [moment, path] of moments) {
      const bench = walk(path);
      if (moment.includes('concluding')) continue;
      bench.hear('chest pain');
      bench.seconds(120);
      expect(bench.of('end').at(-1)?.reason, moment).toBe('red-flag');
    }
  });

  it('pause and resume come back to the same question', () => {
    for (const [moment, path] of moments) {
      const bench = walk(path);
      if (!/"(listening|waiting|confirming)"/.test(moment) || moment.includes('end-session')) {
        continue;
      }
      const decided = bench.actor.getSnapshot().context.decision?.step;
      if (decided?.do === 'ask' && decided.about === 'end-session') continue;
      bench.hear('pause');
      bench.seconds(600);
      const findings = bench.logged('finding').length;
      bench.hear('resume');
      expect(bench.actor.getSnapshot().context.decision?.step, moment).toEqual(decided);
      expect(bench.logged('finding').length, moment).toBe(findings);
    }
  });

  it('makes one finding of a question', () => {
    for (const path of walks) {
      let open = 0;
      for (const entry of walk(path).entries) {
        if (entry.type === 'decision' && entry.to !== null) open = 1;
        if (entry.type !== 'finding') continue;
        expect(open, path.join(', ')).toBe(1);
        open = 0;
      }
    }
  });

  it('never leads to a load after pain above the line, whatever the coach says', () => {
    let loads = 0;
    for (const path of walks) {
      const bench = openBench();
      for (const [at, act] of path.entries()) {
        if (bench.isOver()) break;
        ACTS[act]?.(bench);
        const { log, decision } = bench.actor.getSnapshot().context;
        const step = decision?.step;
        if (step?.do !== 'check' && step?.do !== 'set') continue;
        const { loaded } =
          step.do === 'set'
            ? (book.drills[step.drill] ?? { loaded: true })
            : (book.checks[step.check] ?? { loaded: true });
        if (loaded) loads += 1;
        const hurt = live(log).some(
          (entry) =>
            (entry.type === 'pain-kind' && entry.kind !== 'known') ||
            (entry.type === 'pain-number' && (entry.pain === 'unanswered' || entry.pain > 2)) ||
            (entry.type === 'finding' && (entry.pain ?? 0) > 2),
        );
        expect(hurt && loaded, path.slice(0, at + 1).join(', ')).toBe(false);
      }
    }
    expect(loads).toBeGreaterThan(100);
  });

  it('ends where the file of replies would: never in an error', () => {
    for (const path of walks) {
      const bench = walk(path);
      expect(bench.actor.getSnapshot().status, path.join(', ')).not.toBe('error');
    }
  });
});

const inert = openBench().actor.getSnapshot().context.stage;
const heard = (text: string, prompt: string) => ({
  type: 'HEARD' as const,
  reading: understand(book, prompt, text, {
    passLineDegrees: 155,
    painGoesOnUpTo: 2,
    confidence: 1,
  }),
});

describe('the shortest paths of the smaller machines', () => {
  const walked = <T extends { snapshot?: unknown; state: { value: unknown } }>(found: T[]) =>
    [...new Set(found.map(({ state }) => JSON.stringify(state.value)))].sort();

  it('a question comes to every state, and only a reply answers it', () => {
    const found = getShortestPaths(questionMachine, {
      input: {
        stage: inert,
        prompt: 'set/bell-hinge',
        side: null,
        ask: 'What was that set like?',
        kept: null,
        openedAtMilliseconds: null,
        mayStayUnanswered: false,
      },
      events: [
        { type: 'SPOKEN' },
        { type: 'DEADLINE' },
        { type: 'ONSET' },
        { type: 'NOTHING' },
        { type: 'REPEAT' },
        ...['clean', 'pass but knees forward', 'back', 'good'].map((text) =>
          heard(text, 'set/bell-hinge'),
        ),
        heard('yes', 'confirm'),
        heard('no', 'confirm'),
      ],
      serializeState: ({ value, context: { passed, offered, answer } }) =>
        JSON.stringify([value, Math.min(passed, 3), offered?.heard, answer?.heard]),
      limit: 5000,
    });
    expect(walked(found)).toEqual([
      '"answered"',
      '"asking"',
      '"askingWhich"',
      '"listening"',
      '"sayingWaiting"',
      '"waiting"',
      '{"confirming":"listening"}',
      '{"confirming":"offering"}',
    ]);
    for (const { state, steps } of found) {
      if (state.value !== 'answered') continue;
      expect(steps.at(-1)?.event.type).toBe('HEARD');
      expect(state.context.answer?.reply?.result).toBeTruthy();
    }
  });

  it('lines come to every phase and to their end', () => {
    const phases = [
      'cueing',
      'settling',
      'exhaling',
      'holding',
      'repeating',
      'pausingAtKnee',
      'resting',
    ] as const;
    const found = getShortestPaths(linesMachine, {
      input: {
        stage: inert,
        from: 0,
        lines: phases.map((phase, at) => ({
          phase,
          atSeconds: at,
          seconds: 1,
          text: null,
          beats: [],
          rep: null,
          side: null,
        })),
      },
      events: [
        { type: 'LINE_PERFORMED', endedAtMilliseconds: 1 },
        { type: 'READY' },
        { type: 'REP' },
        { type: 'REPEAT' },
      ],
      serializeState: ({ value, context }) => JSON.stringify([value, context.index]),
      limit: 2000,
    });
    expect(walked(found)).toEqual([...phases, 'finished'].map((name) => `"${name}"`).sort());
  });
});

describe('what is heard, at every prompt', () => {
  it.each(promptsOf(book).map(({ prompt }) => prompt))('"stop" means stop at %s', (prompt) => {
    const { log, decision } = openBench().actor.getSnapshot().context;
    const meaning = (text: string) =>
      meaningOf(heard(text, prompt).reading, prompt, { book, log, decision, othersWait: false });
    expect(meaning('stop')).toBe('stop');
    expect(meaning('chest pain')).toBe('red-flag');
    expect(meaning("don't stop")).toBe('ignored');
    expect(meaning('push your hips back')).toBe('ignored');
  });
});
