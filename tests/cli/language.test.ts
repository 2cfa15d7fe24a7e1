import { describe, expect, it } from 'vitest';
import { sayso, unwritten, written } from './running';

const SPANISH = ['--language', 'es'];

describe('sayso in another language', () => {
  it('hears typed words', async () => {
    const { status, answers } = await sayso(
      ...['hear', ...SPANISH, '--at', 'set/deadlift', 'rodillas adelante, digo, espalda redonda'],
    );
    expect(status).toBe(0);
    expect(answers).toMatchObject([
      {
        verdict: 'accept',
        reply: { result: 'lost', faults: ['back-rounded'] },
        readback: 'espalda redonda',
      },
    ]);
  });

  it('lists its prompts and plans its routine, with the prompts and steps of the first', async () => {
    const [prompts, plan, english] = await Promise.all([
      sayso('prompts', ...SPANISH),
      sayso('plan', 'hinge', ...SPANISH),
      sayso('plan', 'hinge'),
    ]);
    expect(prompts.answers).toContainEqual(expect.objectContaining({ prompt: 'set/bell-hinge' }));
    const steps = (answers: Record<string, unknown>[]) => answers.map(({ step }) => step);
    expect(steps(plan.answers)).toEqual(steps(english.answers));
    // The same work; none of the words was measured.
    const [total, first] = [plan, english].map((ran) => ran.answers.at(-1)!.totalSeconds as number);
    expect(Math.abs(total! / first! - 1)).toBeLessThan(0.2);
    expect(total).not.toBe(first);
  });

  it('finds nothing wrong in its scripts', async () => {
    const { status, output } = await sayso('scripts', ...SPANISH);
    expect({ status, output }).toEqual({ status: 0, output: '' });
  });

  it('refuses a sound file to hear, and says to write words', async () => {
    const { status, errors } = await sayso(
      ...['hear', ...SPANISH, '--at', 'idle', '--audio', written('any.wav', 'RIFF')],
    );
    expect(status).toBe(1);
    expect(errors).toContain('hears no "es" yet: write the words as text');
    const replies = written('spoken.txt', '@audio any.wav\n');
    const rehearsed = await sayso('rehearse', 'hinge', ...SPANISH, '--replies', replies);
    expect(rehearsed.status).toBe(1);
    expect(rehearsed.errors).toContain('hears no "es" yet');
  });

  it('refuses to be spoken into a file, and says to leave that out', async () => {
    const replies = written('one.txt', 'pasa\n');
    const { status, errors } = await sayso(
      ...['rehearse', 'hinge', ...SPANISH, '--replies', replies, '--sound', unwritten('never.wav')],
    );
    expect(status).toBe(1);
    expect(errors).toContain('speaks no "es" yet: leave out --sound');
  });

  it('knows the routines that it has, and names them', async () => {
    const replies = written('one.txt', 'pasa\n');
    const { status, errors } = await sayso('rehearse', 'squat', ...SPANISH, '--replies', replies);
    expect(status).toBe(1);
    expect(errors).toContain('There is no routine "squat". Known: hinge.');
  });
});
