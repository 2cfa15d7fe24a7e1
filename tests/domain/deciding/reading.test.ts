import { describe, expect, it } from 'vitest';
import { findingsOf, live, undoable } from '../../../src/domain/deciding/deciding';
import { book } from './book';
import { Telling } from './logging';

const bell = () => new Telling('hinge').lost('knees-forward');
const last = (told: Telling) => undoable(book, told.entries);
const undoLast = (told: Telling) => told.undo(last(told)?.id ?? 'none');

describe('undo', () => {
  it('brings back the decision before, for whatever was last', () => {
    const steps: ((told: Telling) => Telling)[] = [
      (told) => told.held(),
      (told) => told.lost('toes-up'),
      (told) => told.say('pain'),
      (told) => told.number(4),
      (told) => told.kind('known'),
      (told) => told.coach('again'),
      (told) => told.coach('next'),
    ];
    const told = bell();
    for (const step of steps) {
      const before = told.decision;
      undoLast(step(told));
      expect(told.decision).toEqual(before);
      step(told);
    }
  });

  it('takes back a finding with what the same words said of its pain', () => {
    const told = bell();
    const before = told.decision;
    const source = told.source('sharp pain two');
    const at = { check: null, drill: 'bell-hinge', load: null, prompt: 'set/bell-hinge' };
    told.add({
      type: 'finding',
      ...at,
      source,
      side: null,
      result: 'pain',
      faults: [],
      angleDegrees: null,
      tool: null,
      pain: 2,
    });
    told.add({ type: 'pain-kind', kind: 'sharp', source });
    expect(told.now).toBe('set 1 bench-hinge');
    expect(last(told)?.type).toBe('finding');
    expect(undoLast(told).decision).toEqual(before);
    expect(live(told.entries).map(({ type }) => type)).toEqual(['started', 'finding']);
  });

  it('takes back with a finding what was answered about its pain', () => {
    const told = bell().say('pain').number(4);
    told.undo('s:d:3');
    expect(told.now).toBe('set 1 bell-hinge');
    expect(last(told)?.id).toBe('s:d:2');
  });

  it('takes back a number alone when the kind was asked after it', () => {
    const told = bell().say('pain').number(4).kind('sharp');
    expect(last(told)?.type).toBe('pain-kind');
    expect(undoLast(told).now).toBe('ask pain-kind');
    expect(last(told)?.type).toBe('pain-number');
    expect(undoLast(told).now).toBe('ask pain-number');
    expect(last(told)?.type).toBe('finding');
    expect(undoLast(told).now).toBe('set 1 bell-hinge');
  });

  it('goes back entry by entry to the start, and then there is nothing', () => {
    const told = bell().held(2);
    undoLast(undoLast(told));
    expect(told.now).toBe('set 1 bell-hinge');
    expect(undoLast(told).now).toBe('check hinge-unloaded');
    expect(last(told)).toBeNull();
  });

  it('leaves a red flag, a stop and its answer', () => {
    const told = bell().held().halt().end(false);
    expect(last(told)?.type).toBe('finding');
    told.redFlag('gave-way');
    expect(last(told)?.type).toBe('finding');
  });

  it('keeps the record: what was undone no longer counts among the findings', () => {
    const told = bell().held();
    expect(findingsOf(told.entries)).toHaveLength(2);
    undoLast(told).lost('toes-up');
    expect(findingsOf(told.entries).map(({ result }) => result)).toEqual(['lost', 'lost']);
    expect(told.step).toMatchObject({ fix: 'toes-up' });
  });
});

describe('findings', () => {
  const pains = (told: Telling) =>
    findingsOf(told.entries).map(({ pain, painKind }) => [pain, painKind]);

  it('have the number and kind of pain that were asked for after them', () => {
    expect(pains(bell().say('pain').number(4).kind('known').held())).toEqual([
      [null, null],
      [4, 'known'],
      [null, null],
    ]);
  });

  it('keep the number that was said with them, and none that stayed unanswered', () => {
    expect(pains(bell().hurts(2, 'known').number(9))[1]).toEqual([2, 'known']);
    expect(pains(bell().say('pain').number('unanswered'))[1]).toEqual([null, null]);
  });

  it('lose a number that was taken back, and change no entry of the log', () => {
    const told = bell().say('pain').number(4);
    const before = JSON.stringify(told.entries);
    expect(pains(told)[1]).toEqual([4, null]);
    expect(JSON.stringify(told.entries)).toBe(before);
    expect(pains(undoLast(told))[1]).toEqual([null, null]);
  });
});
