import { describe, expect, it } from 'vitest';
import { createVirtualClock } from '../../src/cli/virtualClock';
import { musicUnder } from '../../src/main/musicUnder';
import type { SessionEvent } from '../../src/ports';

/** Music of which only the level can be seen, under a session that tells these events. */
function session() {
  const clock = createVirtualClock(0);
  let level = 'full';
  const under = musicUnder({ level: (next) => (level = next) }, clock);
  return {
    tell: (event: SessionEvent) => under.show({ ...event, atSeconds: clock.now() / 1000 }),
    pass: (seconds: number) => clock.advance(seconds * 1000),
    level: () => level,
    leave: under.leave,
  };
}
const cue = { type: 'cue', text: 'Push the hips back.', seconds: 3 } as const;
const phase = (name: 'repeating' | 'listening' | 'asking' | 'ended' | 'cueing') =>
  ({ type: 'phase', phase: name, seconds: null }) as const;

describe('music', () => {
  it('gives way to each cue and comes back once its words are over', () => {
    const { tell, pass, level } = session();
    tell(phase('repeating'));
    expect(level()).toBe('full');
    tell(cue);
    expect(level()).toBe('under');
    pass(3.2);
    expect(level()).toBe('under');
    pass(2);
    expect(level()).toBe('full');
  });

  it('stays low as long as a question is open, so that the reply is heard', () => {
    const { tell, pass, level } = session();
    tell(phase('asking'));
    tell(cue);
    tell(phase('listening'));
    pass(60);
    expect(level()).toBe('under');
  });

  it('is silent from "stop" until work goes on, while it is asked whether to end', () => {
    const { tell, level } = session();
    tell(phase('repeating'));
    tell({ type: 'tone', name: 'halted' });
    expect(level()).toBe('off');
    tell(phase('asking'));
    tell(cue);
    tell(phase('listening'));
    expect(level()).toBe('off');
    tell(phase('repeating'));
    expect(level()).not.toBe('off');
  });

  it('ends with the session, and is there again for the next', () => {
    const { tell, level, leave } = session();
    tell(phase('ended'));
    expect(level()).toBe('off');
    leave();
    expect(level()).toBe('full');
  });
});
