import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { sayso, unwritten } from './running';

const REPLIES = fileURLToPath(new URL('../timelines/three-areas.replies.txt', import.meta.url));

/** What `--session` writes, as far as a sheet reads it. */
interface Written {
  [field: string]: unknown;
  checks: { check: string; side: string | null; first: Found | null; retest: Found | null }[];
  ladders: { area: string; rung: number; drill: string; sets: { load: string }[] }[];
  decisions: { rule: string; because: string; by: string }[];
  homework: Record<string, unknown>[];
  entries: { id: string; type: string }[];
}
interface Found {
  result: string;
  faults: string[];
}

describe('the session of three areas, as the command line writes it', () => {
  let session: Written;
  let end: Record<string, unknown> | undefined;
  beforeAll(async () => {
    const path = unwritten('three-areas.json');
    const { status, answers, errors } = await sayso(
      ...['rehearse', 'readiness', '--replies', REPLIES, '--session', path],
    );
    expect(errors).toBe('');
    expect(status).toBe(0);
    end = answers.at(-1);
    session = JSON.parse(readFileSync(path, 'utf8')) as Written;
  });

  it('says what it was: format, routine, way, settings, beginning and end', () => {
    expect(session).toMatchObject({
      format: 'sayso-session-1',
      routine: 'readiness',
      language: 'en',
      way: 'hands-on',
      ended: 'completed',
      settings: { passLineDegrees: 155 },
    });
    expect(String(session.startedAt)).toMatch(/^\d{4}-\d\d-\d\dT/);
  });

  it('has each area with its outcome in words, as the timeline ends', () => {
    expect(session.areas).toEqual(end?.areas);
    expect(session.areas).toMatchObject([
      { area: 'overhead', outcome: 'ready', failed: [] },
      { area: 'squat', outcome: 'working', drill: 'goblet-squat' },
      { area: 'hinge', outcome: 'working', drill: 'bench-hinge' },
    ]);
    for (const { sentence } of session.areas as { sentence: string }[]) {
      expect(sentence).toMatch(/^The (overhead reach|squat|hinge) .*\.$/);
    }
  });

  it('has every check and side: what was found first, and when it was tested again', () => {
    const found = session.checks.map(({ check, side, first, retest }) => [
      side === null ? check : `${check} ${side}`,
      first && [first.result, ...first.faults].join(' '),
      retest && [retest.result, ...retest.faults].join(' '),
    ]);
    expect(found).toEqual([
      ['overhead-passive left', 'held', null],
      ['overhead-passive right', 'held', null],
      ['overhead-active-lying', 'held', null],
      ['overhead-active-standing', 'lost ribs-flared', 'held'],
      ['squat-bodyweight', 'lost heels-up', 'lost heels-up'],
      ['squat-front-rack', null, null],
      ['hinge-unloaded', 'lost knees-forward', 'lost knees-forward'],
      ['hinge-bar', null, null],
    ]);
  });

  it('has the way up and down each ladder, with the load of every set', () => {
    const climbed = session.ladders.map(({ area, rung, drill, sets }) => [
      `${area} ${rung} ${drill}`,
      sets.map(({ load }) => load),
    ]);
    const written = (count: number) => Array<string>(count).fill('as-written');
    expect(climbed).toEqual([
      ['overhead 4 half-kneeling-press', written(2)],
      ['overhead 5 standing-press', written(2)],
      ['squat 1 cable-squat', written(3)],
      ['squat 2 plate-reach-squat', written(3)],
      ['squat 3 goblet-squat', [...written(3), 'lighter', 'lighter']],
      ['squat 4 front-squat', written(1)],
      ['hinge 2 bell-hinge', [...written(2), 'raised']],
      ['hinge 1 bench-hinge', written(2)],
      ['hinge 2 bell-hinge', [...written(2), 'raised']],
    ]);
  });

  it('has every decision with its rule, its sentence and who decided', () => {
    const rules = session.decisions.map(({ rule }) => rule);
    expect(rules).toEqual(
      expect.arrayContaining(['11.1', '2.1', '3.1', '3.4', '4.1', '6.2', '5.1']),
    );
    for (const { because, by } of session.decisions) {
      expect(because).toMatch(/\w/);
      expect(by).toBe('rules');
    }
  });

  it('has the homework with its dose, the lifts and what they lack, and the next date', () => {
    expect(session.homework).toMatchObject([
      { drill: 'goblet-squat', area: 'squat', dose: '3 sets of 6', load: 'lighter' },
      { drill: 'bench-hinge', area: 'hinge', dose: '2 sets of 8', load: 'as-written' },
    ]);
    expect(session.liftsReady).toEqual(['press']);
    const missing = session.liftsMissing as { lift: string }[];
    expect(missing.map(({ lift }) => lift)).toEqual([
      'pulls',
      'front-squat',
      'clean',
      'jerk',
      'snatch',
      'overhead-squat',
    ]);
    expect(session.nextDate).toMatch(/^\d{4}-\d\d-\d\d$/);
    expect(String(session.nextDate) > String(session.startedAt).slice(0, 10)).toBe(true);
  });

  it('keeps the whole log behind it, from its start to its end, each entry once', () => {
    expect(session.entries[0]?.type).toBe('started');
    expect(session.entries.at(-1)?.type).toBe('ended');
    expect(new Set(session.entries.map(({ id }) => id)).size).toBe(session.entries.length);
  });
});

it('who reads only the beginning of a long answer gets no error', async () => {
  const child = spawn(
    process.execPath,
    ['--import', 'tsx', 'src/cli/main.ts', 'rehearse', 'readiness', '--replies', REPLIES],
    { stdio: ['ignore', 'pipe', 'pipe'] },
  );
  let errors = '';
  child.stderr.on('data', (piece: Buffer) => (errors += piece.toString()));
  child.stdout.once('data', () => child.stdout.destroy());
  const status = await new Promise((resolve) => child.on('close', resolve));
  expect(errors).toBe('');
  expect(status).toBe(0);
});
