import { appendFileSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { SHIPPED } from '../sounds/speakers';
import { Kept, shardOf, turnsOf } from './hearing/keeping';
import type { Answer, Job } from './hearing/jobs';

const job = (text: string): Job => ({
  kind: 'memory',
  replies: 3,
  spoken: { speaker: SHIPPED, text, rate: 1 },
});
const answers: Answer[] = [
  { kind: 'memory', ear: 'ours', replies: 3, grownMegabytes: 1, megabytes: 90 },
];

test('a run that was broken off, in the middle of a line even, goes on where it was', () => {
  const folder = mkdtempSync(join(tmpdir(), 'sayso-kept-'));
  new Kept(folder, '1of2').keep(job('pass'), answers);
  appendFileSync(join(folder, '1of2.jsonl'), '{"job":"cut sh');
  const again = new Kept(folder, '1of2');
  expect(again.answersTo(job('pass'))).toEqual(answers);
  expect(again.answersTo(job('stop'))).toBeUndefined();
});

test('what shards heard apart is known together', () => {
  const folder = mkdtempSync(join(tmpdir(), 'sayso-kept-'));
  const jobs = ['pass', 'stop', 'yes', 'no', 'done'].map(job);
  for (const shard of ['1/2', '2/2'])
    for (const each of shardOf(jobs, shard))
      new Kept(folder, shard.replace('/', 'of')).keep(each, answers);
  const all = new Kept(folder, '1of1');
  expect(jobs.map((each) => all.answersTo(each))).toEqual(jobs.map(() => answers));
});

test('what takes longest is heard first, then replies of every place in the list', () => {
  const reply: Partial<Job> = { kind: 'reply' };
  const jobs = [...Array<Partial<Job>>(400).fill(reply), job('pass')] as Job[];
  const [first, ...turns] = turnsOf(jobs);
  expect(first).toBe(400);
  expect(turns.toSorted((a, b) => a - b)).toEqual(jobs.slice(1).map((_, at) => at));
  for (const from of [0, 100, 200, 300])
    expect(
      turns.slice(0, 100).filter((at) => at >= from && at < from + 100).length,
    ).toBeGreaterThan(10);
});

test('shards share out everything once', () => {
  const all = [0, 1, 2, 3, 4, 5, 6];
  const shards = ['1/3', '2/3', '3/3'].map((shard) => shardOf(all, shard));
  expect(shards).toEqual([
    [0, 3, 6],
    [1, 4],
    [2, 5],
  ]);
});

test.each(['0/3', '4/3', 'half'])('the shard %s is refused with how it is written', (shard) => {
  expect(() => shardOf([1], shard)).toThrow('write it as 1/4');
});
