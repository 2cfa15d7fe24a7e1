// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { NO_REPLY, type Reply } from '../../src/domain/hearing/reply';
import { show, tell } from './rendering';
import { cue, decision, finding, heard, listen, phase, STATES, step } from './states';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const now = () => screen.getByRole('region', { name: 'Now' });
const heading = () => screen.getByRole('heading', { level: 1 }).textContent;
const sayables = () =>
  within(screen.getByRole('list', { name: 'You can say' }))
    .getAllByRole('listitem')
    .map(({ textContent }) => textContent);
const buttons = () => screen.getAllByRole('button').map(({ textContent }) => textContent?.trim());
const reply = (said: Partial<Reply>): Reply => ({ ...NO_REPLY, ...said });

describe('what is going on', () => {
  it('shows the drill, where it stands, and the cue as it is spoken', () => {
    show(STATES['run-cueing']!);
    expect(heading()).toBe('Romanian deadlift');
    expect(now().textContent).toContain('Hinge · rung 3 of 4 · set 1 of 2');
    expect(now().textContent).toContain('Stand tall. The bar hangs from long arms.');
    expect(document.body.textContent).toContain('Set the bar down the moment anything hurts.');
    expect(document.body.textContent).toContain('two held sets: up to the Romanian deadlift');
  });

  it('says why once, not twice, while the reason itself is being spoken', () => {
    const seat = show(STATES['run-cueing']!);
    tell(seat, cue('two held sets: up to the Romanian deadlift'));
    expect(screen.getAllByText(/two held sets/)).toHaveLength(1);
  });

  it('shows the side beside the count of the exhale', () => {
    show(STATES['run-exhaling']!);
    expect(now().textContent).toMatch(/Left.*Breathe out.*3 of 6/);
  });

  it('shows the rep of how many', () => {
    show(STATES['run-repeating']!);
    expect(now().textContent).toMatch(/Move.*4 of 6 reps/);
  });

  it('counts the seconds down by the clock, also when a tick came late', () => {
    const seat = show(STATES['run-resting']!);
    expect(now().textContent).toContain('45 seconds');
    seat.setNow(12.4);
    act(() => void vi.advanceTimersByTime(250));
    expect(now().textContent).toContain('33 seconds');
    seat.setNow(90);
    act(() => void vi.advanceTimersByTime(250));
    expect(now().textContent).toContain('0 seconds');
  });

  it('shows what was heard and what became of it', () => {
    const seat = show(STATES['run-check-open']!);
    expect(screen.getByText(/keep your knees back/).textContent).toContain('not a reply');
    tell(seat, heard('knees came forward', 'accept', 'knees forward'));
    expect(screen.getByText(/knees came forward/).textContent).toMatch(/→ knees forward.*taken/);
    tell(seat, heard('', 'accept', 'held'));
    expect(screen.getByText(/By hand/).parentElement?.textContent).toContain('held');
  });

  it('leaves the captions to the voice, and to the screen reader only where there is none', () => {
    const seat = show(STATES['run-cueing']!);
    const caption = () => screen.getByText('Stand tall. The bar hangs from long arms.');
    expect(caption().getAttribute('aria-live')).toBe('off');
    act(() => seat.patch({ voice: 'none' }));
    expect(caption().getAttribute('aria-live')).toBe('polite');
  });
});

describe('what can be said now', () => {
  it.each([
    ['run-settling', ['ready', 'pause', 'pain']],
    ['run-repeating', ['rep', 'done', 'pause', 'pain']],
    ['run-set-open', ['held', 'short', 'back rounded', 'back arched', 'pain']],
    ['run-side-open', ['left', 'right', 'held', 'short', 'ribs flared', 'arms short', 'pain']],
    ['run-offer', ['yes', 'no']],
    ['run-halted', ['yes', 'no']],
    ['run-pain-number', ['zero to ten']],
    ['run-pain-kind', ['new', 'sharp', 'known']],
    ['run-paused', ['resume']],
  ])('%s: %j', (name, words) => {
    show(STATES[name]!);
    expect(sayables()).toEqual(words);
  });

  it('while Sayso speaks is only what is taken then: a halt, pain and red flags', () => {
    const overSpeech = ['stop', 'pause', 'pain', 'dizzy'];
    const seat = show(STATES['run-cueing']!);
    expect(sayables()).toEqual(overSpeech);
    tell(seat, phase('asking'));
    expect(sayables()).toEqual(overSpeech);
    tell(seat, phase('listening'), listen('set/romanian-deadlift'));
    expect(sayables()).toContain('held');
    tell(seat, heard('knees forward', 'confirm', 'knees forward'), phase('confirming'));
    expect(sayables()).toEqual(overSpeech);
    tell(seat, listen('confirm'));
    expect(sayables()).toEqual(['yes', 'no']);
    tell(seat, { type: 'tone', name: 'accepted' });
    expect(sayables()).toEqual(overSpeech);
  });
});

describe('touch twins send what would have been said', () => {
  const sends = (name: string, taps: (string | RegExp)[], said: Partial<Reply>) => {
    const seat = show(STATES[name]!);
    taps.forEach(press);
    expect(seat.replies()).toEqual([reply(said)]);
  };

  it('held', () => sends('run-check-open', ['Held'], { result: 'held' }));
  it('short', () => sends('run-check-open', ['Short'], { result: 'short' }));
  it('pain', () => sends('run-check-open', ['Pain'], { result: 'pain' }));
  it('pain in mid-work', () => sends('run-repeating', ['Pain'], { result: 'pain' }));
  it('lost, without a name for it', () =>
    sends('run-check-open', ['Lost…', 'Send: lost'], { result: 'lost' }));
  it('lost, with the faults that were tapped', () =>
    sends('run-check-open', ['Lost…', 'knees forward', 'toes up', 'toes up', 'Send: lost'], {
      result: 'lost',
      faults: ['knees-forward'],
    }));
  it('the asked side goes with the result', () =>
    sends('run-side-open', ['Held'], { result: 'held', side: 'right' }));
  it('another side can be chosen', () =>
    sends('run-side-open', ['Both', 'Held'], { result: 'held', side: 'both' }));
  it('the same as the other side', () =>
    sends('run-side-open', ['Same as left'], { same: true, side: 'right' }));
  it('a range fault alone is short', () =>
    sends('run-side-open', ['Lost…', 'arms short', 'Send: short'], {
      result: 'short',
      side: 'right',
      faults: ['arms-short'],
    }));
  it('a range fault with a position fault is lost', () =>
    sends('run-side-open', ['Lost…', 'arms short', 'ribs flared', 'Send: lost'], {
      result: 'lost',
      side: 'right',
      faults: ['arms-short', 'ribs-flared'],
    }));
  it('yes to an offer', () => sends('run-offer', ['Yes'], { command: 'yes' }));
  it('no to ending', () => sends('run-halted', ['No, go on'], { command: 'no' }));
  it('yes to ending', () => sends('run-halted', ['Yes, end it'], { command: 'yes' }));
  it('a pain number', () => sends('run-pain-number', ['7'], { pain: 7 }));
  it('no pain', () => sends('run-pain-number', ['0'], { pain: 0 }));
  it('a pain kind', () => sends('run-pain-kind', ['Sharp'], { painKind: 'sharp' }));
  it('ready', () => sends('run-settling', ['Ready'], { command: 'ready' }));
  it('next rep', () => sends('run-repeating', ['Next rep'], { command: 'rep' }));
  it('set done', () => sends('run-repeating', ['Set done'], { command: 'done' }));
  it('pause', () => sends('run-repeating', ['Pause'], { command: 'pause' }));
  it('resume', () => sends('run-paused', ['Resume'], { command: 'resume' }));
  it('repeat', () => sends('run-check-open', ['Repeat'], { command: 'repeat' }));
  it('undo', () => sends('run-check-open', ['Undo'], { command: 'undo' }));
  it('skip', () => sends('run-check-open', ['Skip'], { command: 'skip' }));
  it('lighter', () => sends('run-set-open', ['Lighter'], { command: 'lighter' }));
  it('stop', () => sends('run-repeating', ['Stop'], { command: 'stop' }));
  it('a warning sign, from anywhere', () =>
    sends('run-repeating', ['Unwell', 'Chest pain'], { redFlag: 'chest-pain' }));
  it('no warning sign after all', () => {
    const seat = show(STATES['run-repeating']!);
    press('Unwell');
    press('None of these');
    expect(seat.did).toEqual([]);
    expect(screen.queryByRole('button', { name: 'Chest pain' })).toBeNull();
  });

  it('offers the faults of the check, and at a set every fault of its area', () => {
    show(STATES['run-check-open']!);
    press('Lost…');
    expect(buttons()).not.toContain('bar away');
    show(STATES['run-set-open']!);
    press('Lost…');
    expect(buttons()).toContain('bar away');
    expect(buttons()).not.toContain('ribs flared');
  });

  it('a pain number runs from 0 to 10, and no answer of the set is left to tap', () => {
    show(STATES['run-pain-number']!);
    const numbers = buttons().filter((text) => /^\d+$/.test(text ?? ''));
    expect(numbers).toEqual(['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '10']);
    expect(buttons()).not.toContain('Held');
  });

  it('starts the next question with nothing chosen from the one before', () => {
    const seat = show(STATES['run-set-open']!);
    press('Lost…');
    press('knees forward');
    tell(
      seat,
      finding('set/romanian-deadlift', { result: 'lost' }),
      step('set/romanian-deadlift', { set: 2, rung: 3 }),
      phase('asking'),
      phase('listening'),
      listen('set/romanian-deadlift'),
    );
    press('Lost…');
    expect(screen.getByRole('button', { name: 'knees forward', pressed: false })).toBeTruthy();
  });
});

describe('what is offered', () => {
  it('is shown in words before a yes is asked for', () => {
    show(STATES['run-offer']!);
    expect(now().textContent).toContain('Heard: knees forward?');
  });

  it('in two readings has a button for each and one for neither, and no yes', () => {
    const seat = show(STATES['run-set-open']!);
    const either = [
      { words: 'pain', reply: reply({ result: 'pain' }) },
      { words: 'pass', reply: reply({ result: 'held' }) },
    ];
    const event = heard('pain', 'confirm', 'pain, or pass');
    tell(seat, { ...event, either } as typeof event, phase('confirming'), listen('confirm'));
    expect(sayables()).toEqual(expect.arrayContaining(['pain', 'pass', 'no']));
    expect(screen.queryByRole('button', { name: 'Yes' })).toBeNull();
    press('pass');
    expect(seat.replies()).toEqual([reply({ result: 'held' })]);
    tell(seat, phase('asking'), listen('set/romanian-deadlift'));
    expect(screen.queryByRole('button', { name: 'pain' })).toBeNull();
  });

  it('after "stop" is whether to end, never an old offer', () => {
    const seat = show(STATES['run-set-open']!);
    tell(seat, heard('pass, toes up', 'confirm', 'toes up'), { type: 'tone', name: 'halted' });
    expect(heading()).toBe('Stopped');
    expect(now().textContent).toContain('End the session?');
    expect(now().textContent).not.toContain('toes up?');
    expect(buttons()).toEqual(expect.arrayContaining(['Yes, end it', 'No, go on', 'Stop']));
  });
});

describe('stop', () => {
  it.each(Object.keys(STATES).filter((name) => name.startsWith('run-')))(
    'is there in %s, by touch and by Escape',
    (name) => {
      const seat = show(STATES[name]!);
      press('Stop');
      fireEvent.keyDown(document.body, { key: 'Escape' });
      expect(seat.replies()).toEqual([reply({ command: 'stop' }), reply({ command: 'stop' })]);
    },
  );

  it('by Escape also while another control has the focus', () => {
    const seat = show(STATES['run-set-open']!);
    fireEvent.keyDown(screen.getByRole('button', { name: 'Held' }), { key: 'Escape' });
    expect(seat.replies()).toEqual([reply({ command: 'stop' })]);
  });
});

describe('keys', () => {
  it('a pedal answers after something was tapped, and does not press that again', () => {
    const seat = show(STATES['run-set-open']!);
    const skip = screen.getByRole('button', { name: 'Skip' });
    const keyed = () => seat.did.filter(([what]) => what === 'key');
    // By key it stays where it is, and Space presses it again.
    skip.focus();
    fireEvent.click(skip, { detail: 0 });
    expect(document.activeElement).toBe(skip);
    fireEvent.keyDown(skip, { key: ' ' });
    expect(keyed()).toEqual([]);
    fireEvent.click(skip, { detail: 1 });
    expect(document.activeElement).not.toBe(skip);
    fireEvent.keyDown(document.activeElement ?? document.body, { key: ' ' });
    expect(keyed()).toEqual([['key', ' ']]);
  });

  it('go to the session, except those that the focused control uses', () => {
    const seat = show(STATES['run-set-open']!);
    fireEvent.keyDown(document.body, { key: 'PageDown' });
    fireEvent.keyDown(document.body, { key: ' ' });
    const held = screen.getByRole('button', { name: 'Held' });
    fireEvent.keyDown(held, { key: 'Enter' });
    fireEvent.keyDown(held, { key: 'Tab' });
    fireEvent.keyDown(held, { key: 'r' });
    fireEvent.keyDown(document.body, { key: 'r', ctrlKey: true });
    fireEvent.keyDown(document.body, { key: 'p', repeat: true });
    expect(seat.did).toEqual([
      ['key', 'PageDown'],
      ['key', ' '],
      ['key', 'r'],
    ]);
  });

  it('no longer reach a session that is over', () => {
    const seat = show(STATES['run-set-open']!);
    act(() => seat.patch({ where: 'finished' }));
    fireEvent.keyDown(document.body, { key: 'Escape' });
    expect(seat.did).toEqual([]);
  });

  it('keep their place in the panel when the tapped answer goes away', () => {
    const seat = show(STATES['run-offer']!);
    act(() => screen.getByRole('button', { name: 'Yes' }).focus());
    tell(seat, { type: 'tone', name: 'accepted' }, phase('cueing'));
    expect(document.activeElement).toBe(screen.getByRole('group', { name: 'Answer by touch' }));
  });
});

describe('trouble', () => {
  it('says what does not work and what to do instead', () => {
    show(STATES['run-trouble']!);
    const status = screen.getByRole('status').textContent;
    expect(status).toContain('The microphone was unplugged: answer by touch or keys');
    expect(status).toContain('The device is full');
  });

  it('of the ear goes away when it hears again; of the record it stays', () => {
    const seat = show(STATES['run-trouble']!);
    act(() => seat.patch({ microphone: { state: 'hears', level: 0, hearsWell: 'unknown' } }));
    const status = screen.getByRole('status').textContent;
    expect(status).not.toContain('unplugged');
    expect(status).toContain('The device is full');
  });

  it('uses the words that came with it', () => {
    const seat = show(STATES['run-cueing']!);
    tell(seat, { type: 'trouble', what: 'refused', say: 'Allow storage for this page.' });
    expect(screen.getByRole('status').textContent).toContain('Allow storage for this page.');
  });

  it('tells to allow the microphone while the browser asks in mid-session', () => {
    const seat = show(STATES['run-cueing']!);
    act(() => seat.patch({ microphone: { state: 'asking', level: 0, hearsWell: 'unknown' } }));
    expect(screen.getByRole('status').textContent).toContain('choose Allow');
  });
});

it('a rehearsal says that it is one and can be left', () => {
  const seat = show(STATES['run-rehearsal']!);
  expect(screen.getByText(/a recorded coach speaks/)).toBeTruthy();
  press('Leave');
  expect(seat.did).toEqual([['leave']]);
});

it('shows a decision by its reason before the next cue', () => {
  const seat = show(STATES['run-set-open']!);
  tell(
    seat,
    { type: 'tone', name: 'accepted' },
    decision('one more set, to be sure', '2.3', 'bell-hinge'),
  );
  expect(screen.getByText(/one more set, to be sure/)).toBeTruthy();
});

it('after a warning sign no longer shows a drill that somebody might go on with', () => {
  const seat = show(STATES['run-repeating']!);
  tell(
    seat,
    heard('', 'accept', 'dizzy'),
    { type: 'tone', name: 'accepted' },
    decision('That is a warning sign, so the session ends here.', '7.4', null),
    cue('I end the session here.'),
  );
  expect(heading()).toBe('The session ends');
  expect(document.body.textContent).not.toContain('Set the bar down');
  // Nothing is left to be answered or left out; stop and help are.
  for (const name of ['Done', 'Skip', 'Pause'])
    expect(screen.queryByRole('button', { name })).toBeNull();
  screen.getByRole('button', { name: 'Stop' });
  screen.getByRole('button', { name: 'Unwell' });
});

it('while it is told how an area came out, that stands large, and no side of the check before', () => {
  const seat = show(STATES['run-outcome']!);
  expect(heading()).toBe('Overhead: ready to be taught');
  expect(screen.queryByText('Right')).toBeNull();
  tell(seat, step('check/hinge-unloaded', { set: null, of: null }));
  expect(heading()).toBe('Unloaded hinge');
});

describe('homework alone', () => {
  const asked = (isHomework: boolean, drill: string) => {
    const seat = show({ ...STATES['run-cueing']!, isHomework });
    tell(seat, step(`set/${drill}`, { set: 1, of: 2, rung: 1 }));
    tell(seat, phase('listening'), listen(`set/${drill}`));
    return seat;
  };

  it('is answered with yes or no where the drill asks for it', () => {
    const seat = asked(true, 'bench-hinge');
    expect(sayables()).toEqual(['yes', 'no', 'pain']);
    press('Yes');
    press('No');
    expect(seat.replies()).toEqual([reply({ command: 'yes' }), reply({ command: 'no' })]);
    expect(buttons()).toContain('Held');
  });

  it.each([
    ['no self-check', true, 'romanian-deadlift'],
    ['no homework', false, 'bench-hinge'],
  ])('has no yes and no where there is %s', (_, isHomework, drill) => {
    asked(isHomework, drill);
    expect(buttons()).not.toContain('Yes');
    expect(sayables()).toContain('held');
  });
});
