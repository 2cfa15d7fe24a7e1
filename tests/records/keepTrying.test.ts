import { describe, expect, it, vi } from 'vitest';
import type { RecordProblem, Records } from '../../src/ports';
import { keepTrying } from '../../src/records/keepTrying';
import { memoryRecords } from '../../src/records/memoryRecords';
import { problem } from '../../src/records/problems';
import { ended, finding, outcome, started } from './entries';
import { handClock } from './handClock';

type Mode = RecordProblem['reason'] | 'works' | 'hangs' | 'unreadable';

/** Records over memory that fail in the way that is set. */
const setUp = (mode: Mode = 'works') => {
  const memory = memoryRecords();
  const clock = handClock();
  const world = { mode, tries: 0, late: [] as (() => void)[] };
  const rude: Records = {
    ...memory,
    append(entry, done) {
      world.tries += 1;
      if (world.mode === 'works' || world.mode === 'unreadable') memory.append(entry, done);
      else if (world.mode === 'hangs') world.late.push(() => memory.append(entry, done));
      else done(problem(world.mode));
    },
    read: (session) =>
      world.mode === 'unreadable' ? Promise.reject(new Error('no')) : memory.read(session),
    sessions: () =>
      world.mode === 'unreadable' ? Promise.reject(new Error('no')) : memory.sessions(),
    outcomes: () =>
      world.mode === 'unreadable' ? Promise.reject(new Error('no')) : memory.outcomes(),
  };
  return { world, memory, clock, records: keepTrying(rude, clock) };
};

const first = started('mon');
const second = finding('mon', 1);
const third = finding('mon', 2);

describe('records that keep trying', () => {
  it('tell of a failed write once and store it later without being asked', async () => {
    const { world, memory, clock, records } = setUp('full');
    const done = vi.fn();
    records.append(first, done);
    expect(done.mock.calls).toEqual([[problem('full')]]);
    clock.pass(10_000);
    world.mode = 'works';
    clock.pass(30_000);
    expect(await memory.read('mon')).toEqual([first]);
    expect(done).toHaveBeenCalledTimes(1);
    expect(clock.timers()).toBe(0);
  });

  it('try again after 1 s, then twice as long each time, at most 30 s', () => {
    const { world, clock, records } = setUp('full');
    records.append(first, vi.fn());
    const gaps: number[] = [];
    let since = 0;
    for (let seconds = 0; seconds < 125; seconds += 1) {
      const before = world.tries;
      clock.pass(1000);
      since += 1;
      if (world.tries > before) {
        gaps.push(since);
        since = 0;
      }
    }
    expect(gaps).toEqual([1, 2, 4, 8, 16, 30, 30, 30]);
  });

  it('keep the order: what comes after a failed entry waits behind it and tells the same', async () => {
    const { world, memory, clock, records } = setUp('refused');
    const [one, two, three] = [vi.fn(), vi.fn(), vi.fn()];
    records.append(first, one);
    records.append(second, two);
    expect(two.mock.calls).toEqual([[problem('refused')]]);
    world.mode = 'works';
    records.append(third, three);
    expect(three.mock.calls).toEqual([[null]]);
    expect(await memory.read('mon')).toEqual([first, second, third]);
    clock.pass(60_000);
    expect([one, two, three].map((done) => done.mock.calls.length)).toEqual([1, 1, 1]);
  });

  it('tell of a write that never answers after 3 s, and take its late answer for none', async () => {
    const { world, memory, clock, records } = setUp('hangs');
    const done = vi.fn();
    records.append(first, done);
    clock.pass(2999);
    expect(done).not.toHaveBeenCalled();
    clock.pass(1);
    expect(done.mock.calls).toEqual([[problem('unknown')]]);
    world.late[0]?.();
    world.mode = 'works';
    clock.pass(60_000);
    expect(await memory.read('mon')).toEqual([first]);
    expect(done).toHaveBeenCalledTimes(1);
  });

  it('lose nothing when late answers come one upon the other', async () => {
    const { world, memory, clock, records } = setUp('hangs');
    records.append(first, vi.fn());
    records.append(second, vi.fn());
    clock.pass(4000);
    expect(world.tries).toBe(2);
    world.late[0]?.();
    world.late[1]?.();
    world.mode = 'works';
    clock.pass(60_000);
    expect(await memory.read('mon')).toEqual([first, second]);
  });

  it('hold a session of which something else is stored, say so each time, and let others go on', async () => {
    const { world, memory, clock, records } = setUp('full');
    await memory.addAll([first, { ...second, result: 'held' }]);
    const [one, two, three, other] = [vi.fn(), vi.fn(), vi.fn(), vi.fn()];
    records.append(second, one);
    records.append(third, two);
    records.append(started('tue'), other);
    world.mode = 'works';
    clock.pass(1000);
    records.append(ended('mon', 3), three);
    expect(one.mock.calls).toEqual([[problem('full')]]);
    expect(three.mock.calls).toEqual([[problem('differs')]]);
    expect(await memory.read('mon')).toEqual([first, { ...second, result: 'held' }]);
    expect(await memory.read('tue')).toEqual([started('tue')]);
    expect(records.held?.()).toEqual([second, third, started('tue'), ended('mon', 3)]);
    expect(await records.read('mon')).toEqual([first, second, third, ended('mon', 3)]);
    expect(clock.timers()).toBe(0);
  });

  it('begin anew with short waits after a time that went well, and keep no timer then', async () => {
    const { world, memory, clock, records } = setUp('full');
    records.append(first, vi.fn());
    clock.pass(10_000);
    world.mode = 'works';
    records.append(second, vi.fn());
    expect(clock.timers()).toBe(0);
    world.mode = 'full';
    records.append(third, vi.fn());
    world.mode = 'works';
    clock.pass(1000);
    expect(await memory.read('mon')).toEqual([first, second, third]);
  });

  it('read what is not stored yet after what is, once, and list it', async () => {
    const { world, records } = setUp();
    records.append(first, vi.fn());
    world.mode = 'full';
    records.append(second, vi.fn());
    records.append(ended('mon', 2), vi.fn());
    expect(await records.read('mon')).toEqual([first, second, ended('mon', 2)]);
    expect(await records.sessions()).toMatchObject([{ session: 'mon', ended: 'completed' }]);
    records.append(started('tue', '2026-05-02T09:00:00+02:00'), vi.fn());
    expect((await records.sessions()).map(({ session }) => session)).toEqual(['tue', 'mon']);
  });

  it('tell what a session left that is not stored yet, beside those that are', async () => {
    const { world, records } = setUp();
    for (const entry of [started('sun', '2026-04-30T09:00:00+02:00'), outcome('sun', 1, 'hinge')])
      records.append(entry, vi.fn());
    records.append(first, vi.fn());
    world.mode = 'full';
    records.append(outcome('mon', 1, 'squat', 'working'), vi.fn());
    const left = () => records.outcomes().then((all) => all.map(({ areas }) => areas));
    const squat = { area: 'squat', outcome: 'working', rung: 2 };
    expect(await left()).toEqual([[squat], [{ area: 'hinge', outcome: 'ready', rung: 2 }]]);
    world.mode = 'unreadable';
    expect((await left())[0]).toEqual([squat]);
  });

  it('read a session of this page from memory where the store cannot be read', async () => {
    const { world, records } = setUp();
    records.append(first, vi.fn());
    records.append(second, vi.fn());
    world.mode = 'unreadable';
    expect(await records.read('mon')).toEqual([first, second]);
    expect(await records.sessions()).toHaveLength(1);
  });

  it('do not pass off a part as a session: what cannot be read whole is an error', async () => {
    const { memory, world, records } = setUp();
    memory.append(first, vi.fn());
    records.append(second, vi.fn());
    world.mode = 'unreadable';
    await expect(records.read('mon')).rejects.toThrow('no');
    await expect(records.sessions()).rejects.toThrow('no');
    await expect(records.outcomes()).rejects.toThrow('no');
  });
});
