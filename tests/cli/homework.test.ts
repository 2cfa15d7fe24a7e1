import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { sayso, unwritten, written } from './running';

const HANDED = {
  id: '0123456789abcdef',
  language: 'en',
  madeAt: '2031-03-01T10:00:00+01:00',
  tasks: [{ area: 'hinge', drill: 'bench-hinge', rung: 1, load: 'as-written' }],
  missing: [],
  allowedAlone: [],
  painGoesOnUpTo: 2,
  painRefersAbove: 5,
};
const file = (name: string, value: unknown) =>
  written(name, typeof value === 'string' ? value : JSON.stringify(value));
const handed = file('handed.json', HANDED);
const yes = file('yes.txt', 'yes\nyes\n');
const FIRST = ['rehearse', 'homework', '--handover', handed, '--at', '2031-03-02T09:00:00+01:00'];

describe('homework on the command line', () => {
  const session = unwritten('first.json');
  let first: Awaited<ReturnType<typeof sayso>>;
  beforeAll(async () => {
    first = await sayso(...FIRST, '--replies', yes, '--session', session);
  });

  it('runs what was handed over, alone, by its self-check', () => {
    expect(first.errors).toBe('');
    const cues = first.answers.flatMap(({ type, text }) => (type === 'cue' ? [text] : []));
    expect(cues).toContain('Did your shins stay clear of the bench?');
    expect(first.answers.at(-1)).toMatchObject({
      type: 'end',
      reason: 'completed',
      reportedBy: 'athlete',
      areas: [{ area: 'hinge', outcome: 'working', rung: 1 }],
      liftsReady: [],
      findings: [{ result: 'held' }, { result: 'held' }],
    });
    expect(JSON.parse(readFileSync(session, 'utf8'))).toMatchObject({
      routine: 'homework',
      way: 'alone',
      startedAt: '2031-03-02T09:00:00.000+01:00',
    });
  });

  it('plans what a day takes, with its tasks and why they are that', async () => {
    const { answers, status } = await sayso('plan', '--handover', handed);
    expect(status).toBe(0);
    expect(answers.map(({ step }) => step)).toEqual([
      'set/bench-hinge set 1',
      'set/bench-hinge set 2',
      undefined,
    ]);
    const [one, two] = answers.map(({ seconds }) => Number(seconds));
    expect(answers.at(-1)?.totalSeconds).toBeCloseTo(one! + two!);
    expect(answers.at(-1)).toMatchObject({
      tasks: [{ drill: 'bench-hinge', because: 'As your coach handed it over.' }],
      left: [],
    });
  });

  it('goes on from an earlier session: a rung up, after the morning is asked', async () => {
    const { answers } = await sayso('plan', '--handover', handed, '--earlier', session);
    expect(answers[0]?.step).toBe('morning after, hinge');
    expect(answers.at(-1)).toMatchObject({ tasks: [{ drill: 'stick-hinge', why: 'up' }] });
    const replies = file('second.txt', 'none\npain three\nnew\n');
    const second = unwritten('second.json');
    const args = ['--handover', handed, '--earlier', session, '--replies', replies];
    const ran = await sayso('rehearse', 'homework', ...args, '--session', second);
    expect(ran.answers.at(-1)).toMatchObject({ areas: [{ area: 'hinge', outcome: 'referred' }] });
    const over = [...args, '--earlier', second];
    const refused = await sayso('rehearse', 'homework', ...over);
    expect(refused.status).toBe(1);
    expect(refused.errors.trim()).toBe(
      'Hinge: no more of it alone. Show this to a coach or a licensed professional.',
    );
  });

  it('is told by the sheet as homework that the athlete reported', async () => {
    const { output } = await sayso('sheet', session, '--as', 'text');
    expect(output).toContain('Routine:         Homework');
    expect(output).toContain('alone, as the athlete reported it');
  });

  it.each([
    ['no JSON', 'x', 'cannot be read as JSON'],
    [
      'a drill that is on no ladder',
      { ...HANDED, tasks: [{ ...HANDED.tasks[0], drill: 'x' }] },
      'has no drill "x"',
    ],
    ['a name in place of an id', { ...HANDED, id: 'Quib' }, 'id: must be 16 hexadecimal digits'],
    ['no task', { ...HANDED, tasks: [] }, 'tasks: must have a drill'],
    ['something more', { ...HANDED, name: 'Quib' }, 'name'],
  ])('refuses %s', async (_, given, say) => {
    const { status, errors } = await sayso('plan', '--handover', file('bad.json', given));
    expect(status).toBe(1);
    expect(errors).toContain(say);
  });

  it.each([
    [['rehearse', 'homework', '--replies', yes], '--handover FILE.json'],
    [[...FIRST, '--replies', yes, '--way', 'alone'], 'no --way'],
    [[...FIRST], '--replies FILE'],
    [['rehearse', 'hinge', '--replies', yes, '--handover', handed], 'rehearse homework'],
    [['plan', 'hinge', '--handover', handed], 'leave out "hinge"'],
    [['plan', 'hinge', '--at', '2031'], '--handover'],
    [['plan', '--handover', handed, '--at', 'tomorrow'], '--at is a date and time'],
  ])('tells how it is used: %j', async (args, say) => {
    const { status, errors } = await sayso(...args);
    expect(status).toBe(2);
    expect(errors).toContain(say);
  });
});
