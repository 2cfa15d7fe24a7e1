import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { sayso, unwritten, written, type Ran } from './running';

const REPLIES = [
  'knees came forward',
  ...['pain', 'two', 'one I know', 'clean', 'clean', 'skip', 'skip'],
  ...['knees came forward', 'knees came forward'],
].join('\n');

/** What the contract adds to `outcome`, `end` and the session's file. */
describe('rehearse says what a session came to', () => {
  let ran: Ran;
  let end: Record<string, unknown>;
  const path = unwritten('outcome.json');
  const session = () => JSON.parse(readFileSync(path, 'utf8')) as Record<string, unknown>;
  beforeAll(async () => {
    const replies = written('outcome.txt', REPLIES);
    ran = await sayso('rehearse', 'hinge', '--replies', replies, '--session', path);
    end = ran.answers.at(-1) ?? {};
  });

  it('outcome lines have the pattern, and end has why, what is missing and what comes next', () => {
    expect(ran.errors).toBe('');
    expect(ran.answers.filter(({ type }) => type === 'outcome').at(-1)).toMatchObject({
      area: 'hinge',
      pattern: 'position-given-up',
    });
    expect(end).toMatchObject({
      type: 'end',
      areas: [
        {
          area: 'hinge',
          pattern: 'position-given-up',
          failed: [{ check: 'hinge-unloaded', faults: ['knees-forward'] }],
          notTested: [{ check: 'hinge-bar', why: 'unloaded-failed' }],
        },
      ],
      liftsReady: [],
      liftsMissing: expect.arrayContaining([
        {
          lift: 'clean',
          missing: [
            { area: 'squat', outcome: 'not-tested', rung: null },
            { area: 'hinge', outcome: 'working', rung: 2 },
          ],
          sentence: expect.stringContaining('hinge (working at the bell hinge)'),
        },
      ]),
      homework: [{ area: 'hinge', drill: 'bell-hinge', rule: '13.1' }],
      nextDate: '2026-01-12',
      cautions: expect.arrayContaining([expect.stringContaining('not medical advice')]),
    });
  });

  it('a number given for pain stands with its finding', () => {
    expect(end.findings).toContainEqual(
      expect.objectContaining({ prompt: 'set/bell-hinge', pain: 2, painKind: 'known' }),
    );
  });

  it('the session file has what a sheet needs: checks, rungs, decisions and who decided', () => {
    expect(session()).toMatchObject({
      format: 'sayso-session-1',
      way: 'hands-on',
      ended: 'completed',
      checks: [
        {
          check: 'hinge-unloaded',
          side: null,
          first: { result: 'lost', faults: ['knees-forward'], angleDegrees: null, tries: 1 },
          retest: { result: 'lost' },
        },
        { check: 'hinge-bar', first: null, notTested: 'unloaded-failed' },
      ],
      ladders: [{ area: 'hinge', rung: 2, drill: 'bell-hinge', sets: expect.any(Array) }],
      homework: end.homework,
      nextDate: end.nextDate,
      cautions: end.cautions,
      decisions: expect.arrayContaining([
        expect.objectContaining({ rule: '9.3', by: 'coach' }),
        expect.objectContaining({ rule: '11.1', by: 'rules' }),
      ]),
      findings: expect.arrayContaining([
        expect.objectContaining({ source: expect.objectContaining({ text: 'clean' }), pain: null }),
      ]),
    });
  });
});
