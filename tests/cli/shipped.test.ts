import { afterEach, describe, expect, it, vi } from 'vitest';
import { hear } from '../../src/cli/hear';
import { plan } from '../../src/cli/plan';
import { prompts } from '../../src/cli/prompts';
import { rehearseVerb } from '../../src/cli/rehearse';
import { bookOf, type Verb } from '../../src/cli/verb';
import { checksOf } from '../../src/domain/script';
import { promptOf } from '../../src/domain/hearing/prompts';
import { written } from './running';

const book = bookOf();
const checks = Object.values(book.checks);
const drills = Object.values(book.drills);
const routines = Object.values(book.routines);
const asked = [...checks.map(({ id }) => `check/${id}`), ...drills.map(({ id }) => `set/${id}`)];

afterEach(() => vi.restoreAllMocks());

type Answer = Record<string, unknown>;

/** What a verb prints, run in this process: one JSON value a line. */
async function answersOf(verb: Verb, ...args: string[]): Promise<Answer[]> {
  const lines: string[] = [];
  vi.spyOn(console, 'log').mockImplementation((line: string) => void lines.push(line));
  expect(await verb.run(args)).toBe(0);
  return lines.map((line) => JSON.parse(line) as Answer);
}

/** How each of many utterances is heard. */
const heard = (lines: { at: string; text: string }[]): Promise<Answer[]> =>
  answersOf(
    hear,
    '--jsonl',
    written('shipped.jsonl', lines.map((line) => JSON.stringify(line)).join('\n')),
  );

const rehearsed = (routine: string, way: string, replies: string[]): Promise<Answer[]> =>
  answersOf(
    rehearseVerb,
    routine,
    ...['--way', way, '--replies', written('shipped.txt', replies.join('\n'))],
  );

const stepsOf = (answers: Answer[]): string[] =>
  answers.flatMap(({ type, prompt }) => (type === 'step' ? [String(prompt)] : []));

describe('prompts', () => {
  it('names every check and every drill, each with its faults', async () => {
    const listed = new Map(
      (await answersOf(prompts)).map(({ prompt, expects }) => [prompt, expects as string[]]),
    );
    expect([...listed.keys()].sort()).toEqual(
      [...asked, 'pain/how-much', 'pain/kind', 'confirm', 'idle'].sort(),
    );
    for (const { id, faults } of checks) {
      expect(listed.get(`check/${id}`)).toEqual(expect.arrayContaining(['held', ...faults]));
    }
    for (const { id, fixes } of drills) {
      const faults = fixes.map(({ fault }) => fault);
      expect(listed.get(`set/${id}`)).toEqual(expect.arrayContaining(['held', ...faults]));
    }
    for (const expects of listed.values())
      expect(expects).toEqual(expect.arrayContaining(['stop']));
  });
});

describe('hear', () => {
  it('takes every fault by its name at every check and drill that expects it', async () => {
    const lines = asked.flatMap((at) => {
      const prompt = promptOf(book, at);
      if (prompt?.kind !== 'result') throw new Error(`${at} asks for no result.`);
      return [...prompt.faults].map((fault) => ({
        at,
        fault,
        text: fault.replaceAll('-', ' '),
      }));
    });
    expect(lines.length).toBeGreaterThan(asked.length * 4);
    const answers = await heard(lines.map(({ at, text }) => ({ at, text })));
    const wrong = lines.filter(({ fault }, index) => {
      const { verdict, reply } = answers[index] as { verdict: string; reply: Answer | null };
      return verdict !== 'accept' || JSON.stringify(reply?.faults) !== JSON.stringify([fault]);
    });
    expect(wrong).toEqual([]);
  });

  it('takes a pass, limited, pain and stop at each of them', async () => {
    const replies = { 'clean set': 'held', limited: 'short', 'it hurts': 'pain' };
    for (const [text, result] of Object.entries(replies)) {
      const answers = await heard(asked.map((at) => ({ at, text })));
      expect(answers).toEqual(
        asked.map(() => expect.objectContaining({ reply: expect.objectContaining({ result }) })),
      );
    }
    const stops = await heard([...asked, 'idle', 'confirm'].map((at) => ({ at, text: 'stop' })));
    for (const stop of stops) expect(stop).toMatchObject({ reply: { command: 'stop' } });
  });

  it('goes to every check and drill by the name that Sayso speaks', async () => {
    const named = [...checks, ...drills];
    const answers = await heard(
      named.map(({ name, area }) => ({
        at: `check/${checksOf(book, area)[0]?.id}`,
        text: `go to ${name}`,
      })),
    );
    const targets = answers.map(({ reply }) => (reply as Answer | null)?.target);
    expect(targets).toEqual(named.map(({ id }) => id));
  });
});

describe('plan', () => {
  it.each(routines)('$id: every check on each side and two sets of every rung', async ({ id }) => {
    const answers = await answersOf(plan, id);
    const steps = answers.slice(0, -1).map(({ step }) => String(step));
    for (const { do: what, area } of book.routines[id]!.items) {
      if (what === 'ladder') {
        for (const { drill } of book.ladders[area]!.rungs) {
          expect(steps.filter((step) => step.startsWith(`set/${drill} `)).length).toBe(
            book.drills[drill]!.sided ? 4 : 2,
          );
        }
        continue;
      }
      for (const check of checksOf(book, area)) {
        const sides = check.sided ? [' left', ' right'] : [''];
        for (const side of sides) {
          expect(steps).toContain(`check/${check.id}${side}${what === 'retest' ? ' retest' : ''}`);
        }
      }
    }
    const seconds = answers.slice(0, -1).map((answer) => Number(answer.seconds));
    expect(Math.min(...seconds)).toBeGreaterThan(20);
    const sum = seconds.reduce((total, each) => total + each, 0);
    expect(answers.at(-1)?.totalSeconds).toBeCloseTo(sum, 1);
  });

  it('readiness: the checks alone take less than nine minutes', async () => {
    const answers = await answersOf(plan, 'readiness');
    const alone = answers.filter(
      ({ step }) => /^check\//.test(String(step)) && !/retest/.test(String(step)),
    );
    expect(alone).toHaveLength(checks.length + checks.filter(({ sided }) => sided).length);
    const seconds = alone.reduce((total, answer) => total + Number(answer.seconds), 0);
    expect(seconds).toBeLessThan(9 * 60);
  });
});

describe('rehearse', () => {
  const ways = routines.flatMap(({ id, ways: each }) => each.map((way) => [id, way] as const));

  it.each(ways)('%s, %s, all held: every check, then the end', async (id, way) => {
    const answers = await rehearsed(id, way, Array<string>(30).fill('clean'));
    const areas = new Set(book.routines[id]!.items.map(({ area }) => area));
    const due = checks.filter(
      ({ area, needsCoach }) => areas.has(area) && (way !== 'alone' || !needsCoach),
    );
    expect([...new Set(stepsOf(answers))]).toEqual(due.map(({ id: check }) => `check/${check}`));
    expect(answers.at(-1)).toMatchObject({ type: 'end', reason: 'completed' });
  });

  it.each(ways)('%s, %s, nothing held: an end with no lift to teach', async (id, way) => {
    const answers = await rehearsed(id, way, Array<string>(200).fill('limited'));
    expect(answers.at(-1)).toMatchObject({ type: 'end', reason: 'completed', liftsReady: [] });
  });

  it('all ladders from their first rungs: every drill of every rung is done', async () => {
    const failed = ['pass', 'pass', 'pass', 'limited', 'heels came up', 'back rounded'];
    // The overhead ladder begins at its first rung where the lifted arm fails.
    failed[0] = 'limited';
    const answers = await rehearsed('readiness', 'hands-on', [
      ...failed,
      ...Array<string>(60).fill('clean'),
    ]);
    const rungs = Object.values(book.ladders).flatMap((ladder) => ladder?.rungs ?? []);
    expect(new Set(stepsOf(answers).filter((step) => step.startsWith('set/')))).toEqual(
      new Set(rungs.map(({ drill }) => `set/${drill}`)),
    );
    expect(answers.at(-1)).toMatchObject({ reason: 'completed' });
  });
});
