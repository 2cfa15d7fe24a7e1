import { describe, expect, it } from 'vitest';
import { NO_REPLY } from '../../../src/domain/hearing/reply';
import type { Entry, Fact, Source } from '../../../src/domain/log';
import { momentsOf } from '../../../src/domain/reporting/moments';
import { bookOf } from '../../../src/cli/verb';

const prompt = 'check/hinge-unloaded';
const source: Source = { by: 'voice', text: 'knees forward', confidence: 1 };
const lost = { ...NO_REPLY, result: 'lost' as const, faults: ['knees-forward'] };
const log = (facts: Fact[]): Entry[] =>
  facts.map((fact, at) => ({ ...fact, id: `s:d:${at + 1}`, atSeconds: at * 10 }));
const heard = (more: Partial<Extract<Fact, { type: 'heard' }>> = {}): Fact => ({
  ...{ type: 'heard', prompt, text: 'knees forward', verdict: 'accept', reply: lost },
  ...more,
});
const finding: Fact = {
  ...{ type: 'finding', prompt, check: 'hinge-unloaded', drill: null, load: null, source },
  ...{ side: null, result: 'lost', faults: ['knees-forward'], angleDegrees: null },
  ...{ tool: null, pain: null },
};
const decision = (because: string): Fact => ({
  ...{ type: 'decision', rule: '11.1', because, area: 'hinge', from: 'hinge-unloaded' },
  ...{ to: 'bell-hinge', by: 'rules' },
});
const moments = (facts: Fact[]) => momentsOf(bookOf(), log(facts));

describe('what was heard and decided', () => {
  it('stands in its order: the words, what they were taken to mean, the decision and its reason', () => {
    expect(
      moments([{ type: 'asked', prompt, side: null }, heard(), finding, decision('Why.')]),
    ).toEqual([
      {
        ...{ id: 's:d:2', atSeconds: 10, type: 'heard', prompt, text: 'knees forward' },
        ...{ verdict: 'accept', understood: 'knees forward', isTakenBack: false },
      },
      {
        ...{ id: 's:d:4', atSeconds: 30, type: 'decided', area: 'hinge', to: 'bell-hinge' },
        ...{ because: 'Why.', rule: '11.1', by: 'rules' },
      },
    ]);
  });

  it('keeps what was taken back and says so, without the decision that came of it', () => {
    const undone: Fact = { type: 'undone', entry: 's:d:2', source: { ...source, text: 'undo' } };
    expect(moments([heard(), finding, decision('Why.'), undone])).toMatchObject([
      { type: 'heard', isTakenBack: true },
      { type: 'deed', deed: 'undone', text: 'undo' },
    ]);
  });

  it('has talk that was no answer, answers by hand, and a stop', () => {
    const told = moments([
      heard({ text: 'what a day', verdict: 'ignore', reply: null }),
      heard({ text: '', reply: { ...NO_REPLY, result: 'held' } }),
      { type: 'halted', source },
    ]);
    expect(told).toMatchObject([
      { text: 'what a day', understood: null },
      { text: '', understood: 'pass' },
      { type: 'deed', deed: 'halted' },
    ]);
  });

  it('keeps what was corrected, with what to and when, and what the area is since', () => {
    const on = ['2031-03-02T10:00:00+01:00', '2031-03-03T10:00:00+01:00'] as const;
    const to = (result: 'short' | 'held', correctedAt: string): Fact => ({
      ...{ type: 'corrected', entry: 's:d:2', of: null, prompt, check: 'hinge-unloaded' },
      ...{ drill: null, load: null, side: null, result, faults: [], angleDegrees: null },
      ...{ tool: null, pain: null, painKind: null, correctedAt, source },
    });
    const stands = (outcome: 'working' | 'unfinished'): Fact => ({
      ...{ type: 'outcome', area: 'hinge', outcome, rung: 1 },
    });
    const told = moments([
      ...[heard(), finding, stands('working'), { type: 'ended', reason: 'completed' } as const],
      ...[to('short', on[0]), to('held', on[1]), stands('unfinished')],
    ]);
    const last = [{ to: expect.objectContaining({ result: 'held' }), on: on[1] }];
    expect(told).toMatchObject([
      { type: 'heard', isTakenBack: false, corrected: last },
      { type: 'corrected', to: { result: 'short' }, on: on[0], corrected: last },
      { type: 'corrected', to: { result: 'held' }, on: on[1] },
      { type: 'stands', area: 'hinge', before: 'working', now: 'unfinished' },
    ]);
    expect(told[2]).not.toHaveProperty('corrected');
  });
});
