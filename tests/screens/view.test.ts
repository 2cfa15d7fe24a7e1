import { describe, expect, it } from 'vitest';
import type { Entry, Fact } from '../../src/domain/log';
import { EMPTY_VIEW, secondsLeft, viewOf, viewOfLog } from '../../src/screens/view';
import { viewAfter } from './fakeSeat';
import { cue, decision, finding, heard, listen, phase, step } from './states';

const WORK = [step('set/bell-hinge', { rung: 2 }), phase('repeating', 5)];
const OPEN = [...WORK, phase('asking'), phase('listening'), listen('set/bell-hinge')];
const ACCEPTED = { type: 'tone', name: 'accepted' } as const;
const HALTED = { type: 'tone', name: 'halted' } as const;

describe('what a screen knows of the timeline', () => {
  it('starts with nothing going on', () => {
    expect(EMPTY_VIEW).toMatchObject({ step: null, phase: null, prompt: 'idle', end: null });
  });

  it('counts down to an absolute time, whenever it looks', () => {
    const view = viewAfter([{ ...phase('holding', 20), atSeconds: 100 }]);
    expect(secondsLeft(view, 100)).toBe(20);
    expect(secondsLeft(view, 113.2)).toBe(7);
    expect(secondsLeft(view, 400)).toBe(0);
    expect(secondsLeft(viewAfter([phase('listening')]), 5)).toBeNull();
  });

  it('keeps the rep through the halves of a rep, and forgets it at the next set', () => {
    const beat = { type: 'beat', count: 3 } as const;
    const events = [...WORK, beat, phase('pausingAtKnee', 2), phase('repeating', 2)];
    expect(viewAfter(events).rep).toBe(3);
    expect(viewAfter([...events, step('set/bell-hinge', { set: 2 })]).rep).toBeNull();
  });

  it('counts the seconds of an exhale apart from the reps', () => {
    const view = viewAfter([...WORK, phase('exhaling', 6), { type: 'beat', count: 4 }]);
    expect(view).toMatchObject({ count: 4, rep: null });
    expect(
      viewAfter([phase('exhaling', 6), { type: 'beat', count: 4 }, phase('resting', 5)]).count,
    ).toBeNull();
  });

  it('knows the question of a step while it is still being asked', () => {
    expect(viewAfter([...WORK, phase('asking')]).prompt).toBe('set/bell-hinge');
    expect(viewAfter(WORK).prompt).toBe('idle');
  });

  it('does not offer the answers of a question that is already answered', () => {
    const answered = [...OPEN, finding('set/bell-hinge', { result: 'pain' }), ACCEPTED];
    expect(viewAfter(answered).prompt).toBe('idle');
    expect(viewAfter([...answered, phase('asking')]).prompt).toBe('idle');
    const pain = viewAfter([
      ...answered,
      phase('asking'),
      phase('listening'),
      listen('pain/how-much'),
    ]);
    expect(pain.prompt).toBe('pain/how-much');
  });

  it('keeps an open question open while it is asked again, waits or is paused', () => {
    for (const again of ['asking', 'waiting', 'paused'] as const) {
      expect(viewAfter([...OPEN, phase(again)]).prompt).toBe('set/bell-hinge');
    }
  });

  it('goes back to the question after an offer is refused', () => {
    const offered = [...OPEN, heard('pass, knees forward', 'confirm', 'knees forward')];
    const confirming = [...offered, phase('confirming'), listen('confirm')];
    expect(viewAfter(confirming)).toMatchObject({ prompt: 'confirm', offered: 'knees forward' });
    expect(viewAfter([...confirming, phase('asking')])).toMatchObject({
      prompt: 'set/bell-hinge',
      offered: null,
    });
  });

  it('after "stop" asks whether to end, at once, until work goes on', () => {
    const halted = viewAfter([...WORK, HALTED]);
    expect(halted).toMatchObject({ halted: true, prompt: 'confirm', endsAtSeconds: null });
    const asked = [...WORK, HALTED, phase('asking'), phase('listening'), listen('confirm')];
    expect(viewAfter(asked)).toMatchObject({ halted: true, prompt: 'confirm' });
    expect(viewAfter([...asked, ACCEPTED, phase('repeating', 5)])).toMatchObject({
      halted: false,
      prompt: 'idle',
    });
  });

  it('keeps what was heard last, with what became of it', () => {
    const view = viewAfter([heard('held', 'accept', 'held'), heard('good', 'ignore', null)]);
    expect(view.heard).toMatchObject({ text: 'good', verdict: 'ignore' });
  });

  it('keeps the newest trouble of a kind', () => {
    const view = viewAfter([
      { type: 'trouble', what: 'full', say: 'first' },
      { type: 'trouble', what: 'unplugged', say: null },
      { type: 'trouble', what: 'full', say: 'second' },
    ]);
    expect(view.troubles.map(({ say }) => say)).toEqual([null, 'second']);
  });

  it('never changes a view that it was given', () => {
    const before = Object.freeze(viewAfter(OPEN));
    const copy = structuredClone(before);
    viewOf(before, { ...cue('On.'), atSeconds: 9 });
    viewOf(before, { ...finding('set/bell-hinge'), atSeconds: 9 });
    expect(before).toEqual(copy);
  });
});

describe('a session that is taken up again', () => {
  const entry = (seq: number, fact: Fact): Entry => ({ ...fact, id: `s:d:${seq}`, atSeconds: seq });

  it('shows what was decided last', () => {
    const told = decision('We begin.', '10.1', 'bench-hinge');
    if (told.type !== 'decision') throw new Error('not a decision');
    const view = viewOfLog([entry(1, { ...told, by: 'rules' })]);
    expect(view.decisions.map(({ because }) => because)).toEqual(['We begin.']);
    expect(view.phase).toBeNull();
  });
});
