// @vitest-environment jsdom
import {
  act,
  cleanup,
  configure,
  fireEvent,
  render,
  screen,
  waitFor,
} from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { App } from '../../src/screens/App';
import type { WarmUp } from '../../src/domain/warmUp/warmUp';
import type { WarmUpOffer, WarmUpState } from '../../src/screens/warmUp/state';
import { fakeSeat } from './fakeSeat';

// Screens that come in files of their own take seconds on a busy machine.
configure({ asyncUtilTimeout: 15_000 });
afterEach(cleanup);

const book = loadBook('scripts-cues', 'en');
const OWN: WarmUp = { ...book.warmUps['four-stations']!, id: 'mine', name: 'the one of Monday' };
const offer = (warmUp: WarmUp, seconds: number, leastSeconds: number): WarmUpOffer => ({
  ...{ id: warmUp.id, name: warmUp.name, warmUp, isOwn: warmUp === OWN },
  ...{ seconds, leastSeconds, mostSeconds: 900 },
});
const STATE: WarmUpState = {
  ...{ stage: 'choosing', chosen: null, turn: null, isHeld: false, asksEnd: false },
  ...{ endsAtMilliseconds: null, ended: null, trouble: null, listen: 'hands' },
  ...{ wanted: null, building: null, sound: null, told: null },
  offers: [
    offer(book.warmUps['before-the-bar']!, 536, 48),
    offer(book.warmUps['four-stations']!, 597, 90),
    offer(OWN, 597, 90),
  ],
};
const open = (change: Partial<WarmUpState> = {}) => {
  const seat = fakeSeat({ where: 'warmUp', book, warmUp: { ...STATE, ...change } });
  render(<App seat={seat} />);
  return seat;
};
const button = (name: string | RegExp) => screen.findByRole('button', { name });

describe('before a group begins', () => {
  it('the first screen leads there in one tap', async () => {
    const seat = fakeSeat({ where: 'people', book });
    render(<App seat={seat} />);
    fireEvent.click(await button('Warm up a group'));
    expect(seat.did).toContainEqual(['warmUp']);
  });

  it('in a language that has none it says so, and leads back to English', async () => {
    const spanish = loadBook('scripts-cues', 'es');
    const seat = fakeSeat({ where: 'warmUp', book: spanish, warmUp: { ...STATE, offers: [] } });
    render(<App seat={seat} />);
    await screen.findByText(/The warm-ups are in English so far/);
    expect(screen.queryByText(/begin by touch/)).toBeNull();
    fireEvent.click(await button('Change the language to English'));
    expect(seat.did).toContainEqual(['chooseLanguage', 'en']);
  });

  it('each is told with its time and what so many people need, and begins with one tap', async () => {
    const seat = open();
    await screen.findByText('The warm-up before the bar, 9 minutes');
    await screen.findByText('12 × a light stick');
    fireEvent.change(screen.getByLabelText('People in the group'), { target: { value: '30' } });
    await screen.findByText('30 × a light stick');
    fireEvent.click(await button(/begin by touch/));
    expect(seat.did).toContainEqual([
      'beginWarmUp',
      { id: 'before-the-bar', minutes: null, listen: 'hands' },
    ]);
  });

  it('at stations a card of each can be printed: what is done, its caution, what lies there', async () => {
    open();
    fireEvent.click(await screen.findByLabelText(/four stations/));
    await screen.findByText('12 people at 4 stations: 3 at each.');
    await screen.findByRole('heading', { name: 'Station 4: the stick press' });
    await screen.findByText(book.drills['stick-press']!.caution);
    expect((await screen.findAllByText(/3 at once/)).length).toBe(4);
    await button('Print a card for each station');
  });

  it.each([
    ['It ends after (minutes)', '0', 'Write 1 to 15 minutes, or leave it empty.'],
    ['It ends after (minutes)', '16', 'Write 1 to 15 minutes, or leave it empty.'],
    ['It ends after (minutes)', 'ten', 'Write 1 to 15 minutes, or leave it empty.'],
    ['People in the group', '41', 'Write 2 to 40 people.'],
    ['People in the group', '1.5', 'Write 2 to 40 people.'],
    ['People in the group', '0x10', 'Write 2 to 40 people.'],
  ])('%s: "%s" is refused with what to write, and nothing begins', async (label, value, wrong) => {
    open();
    fireEvent.change(await screen.findByLabelText(label), { target: { value } });
    await screen.findByText(wrong);
    expect(await button(/begin by touch/)).toHaveProperty('disabled', true);
  });

  it('the end that is wanted goes with it', async () => {
    const seat = open();
    fireEvent.change(await screen.findByLabelText('It ends after (minutes)'), {
      target: { value: '6' },
    });
    fireEvent.click(await button(/begin by voice/));
    expect(seat.did).toContainEqual([
      'beginWarmUp',
      { id: 'before-the-bar', minutes: 6, listen: 'microphone' },
    ]);
  });
});

describe('warm-ups of one’s own, and files', () => {
  it('a shipped one can be copied, and a new one built, but none of them removed', async () => {
    const seat = open();
    fireEvent.click(await button('Begin with a copy of it'));
    expect(seat.did).toContainEqual(['buildWarmUp', { ...book.warmUps['before-the-bar'], id: '' }]);
    fireEvent.click(await button('Build a new one'));
    expect(seat.did).toContainEqual(['buildWarmUp', { id: '', name: '', parts: [] }]);
    expect(screen.queryByRole('button', { name: 'Remove it' })).toBeNull();
  });

  it('one’s own is told as such, changed, and removed after one question', async () => {
    const seat = open({ wanted: 'mine' });
    await screen.findByLabelText('The one of Monday, 10 minutes, your own');
    fireEvent.click(await button('Change it'));
    expect(seat.did).toContainEqual(['buildWarmUp', OWN]);
    fireEvent.click(await button('Remove it'));
    await screen.findByText('Remove “The one of Monday” from this device?');
    fireEvent.click(await button('Keep it'));
    expect(seat.did.some(([what]) => what === 'removeWarmUp')).toBe(false);
    fireEvent.click(await button('Remove it'));
    fireEvent.click(await button('Remove it'));
    expect(seat.did).toContainEqual(['removeWarmUp', 'mine']);
  });

  it('a file that is none is told with why', async () => {
    const seat = fakeSeat({ where: 'warmUp', book, warmUp: STATE }, 'x.yaml is no warm-up.');
    render(<App seat={seat} />);
    const file = new File(['?'], 'x.yaml');
    fireEvent.change(await screen.findByLabelText('Bring in a file'), {
      target: { files: [file] },
    });
    await screen.findByText('x.yaml is no warm-up.');
    expect(seat.did).toContainEqual(['bringInWarmUp', 'x.yaml']);
  });

  it('the sound file is made to the end that is wanted, can be called off, and says what is not in it', async () => {
    const seat = open();
    await screen.findByText(/about 18 MB.*Music is not in it/);
    fireEvent.change(await screen.findByLabelText('It ends after (minutes)'), {
      target: { value: '6' },
    });
    fireEvent.click(await button('Save as a sound file'));
    expect(seat.did).toContainEqual(['saveSound', { id: 'before-the-bar', minutes: 6 }]);
    act(() => seat.patch({ warmUp: { ...STATE, sound: 0.42 } }));
    expect(await screen.findByRole('progressbar')).toHaveProperty('value', 0.42);
    fireEvent.click(await button('Do not save it: 42 % is made'));
    expect(seat.did).toContainEqual(['cancelSound']);
  });
});

describe('while a group is led', () => {
  const running = (change: Partial<WarmUpState> = {}) =>
    open({
      stage: 'running',
      turn: { name: 'the wall hinge', number: 2, of: 9, next: 'the post squat' },
      ...change,
    });

  it('what is done now, how long yet, and what comes next are shown', async () => {
    const seat = running();
    seat.show({ type: 'phase', phase: 'repeating', seconds: 40, atSeconds: 0 });
    seat.setNow(13);
    await screen.findByRole('heading', { name: 'The wall hinge' });
    await screen.findByText('Work');
    await screen.findByText('27');
    await screen.findByText('Next: the post squat');
    await screen.findByText(/2 of 9/);
  });

  it.each([
    ['Hold on', {}, 'pause'],
    ['Go on', { isHeld: true }, 'resume'],
    ['One more', {}, 'again'],
    ['Skip', {}, 'skip'],
    ['Go back', {}, 'back'],
    ['Stop', {}, 'stop'],
    ['Yes, end it', { asksEnd: true }, 'yes'],
    ['No, rest here', { asksEnd: true }, 'no'],
  ])('"%s" by touch', async (name, change, command) => {
    const seat = running(change);
    fireEvent.click(await button(name));
    expect(seat.replies().at(-1)).toMatchObject({ command });
  });

  it.each([
    ['hands', 'You can say: stop'],
    ['microphone', 'You can say: hold on, one more, skip, go back, stop'],
  ] as const)('led by %s, it tells what the ear takes', async (listen, words) => {
    const seat = running({ listen });
    seat.patch({ microphone: { ...seat.state().microphone, state: 'hears' } });
    await screen.findByText((_, element) => element?.textContent.trim() === words);
  });

  it.each([{ isHeld: true }, { asksEnd: true }])(
    'a word that may go on is shown as heard at once: %j',
    async (change) => {
      const seat = running(change);
      await button('Stop');
      seat.show({ type: 'tone', name: 'heard', atSeconds: 0 });
      await screen.findByText('Heard');
    },
  );

  it('Escape is "stop", and a warning sign has its button', async () => {
    const seat = running();
    await button('Stop');
    fireEvent.keyDown(window, { key: 'Escape' });
    expect(seat.replies().at(-1)).toMatchObject({ command: 'stop' });
    fireEvent.click(await button('Unwell'));
    fireEvent.click(await button(/chest pain/i));
    expect(seat.replies().at(-1)?.redFlag).toBe('chest-pain');
  });

  it('held, it says so and what it holds', async () => {
    running({ isHeld: true });
    await screen.findByRole('heading', { name: 'Held' });
    await screen.findByText('the wall hinge');
  });

  it('asks in a hold for a word once more, and no longer once it hears another', async () => {
    const seat = running({ isHeld: true });
    await button('Stop');
    const heard = { type: 'heard', verdict: 'ignore', readback: null, atSeconds: 0 } as const;
    seat.show({ ...heard, text: 'go long' });
    seat.show({ type: 'tone', name: 'not-understood', atSeconds: 0 });
    await screen.findByText('Say it again');
    seat.show({ ...heard, text: 'nice work' });
    await waitFor(() => expect(screen.queryByText('Say it again')).toBeNull());
  });
});

it.each([
  ['completed', 'All of it was done.'],
  ['stopped', 'It was stopped before its end.'],
  ['red-flag', 'It ended on a warning sign. Get help now, as your local rules say.'],
] as const)('after one that %s', async (ended, words) => {
  const seat = open({ stage: 'over', ended });
  await screen.findByText(words);
  fireEvent.click(await button('To the start'));
  expect(seat.did).toContainEqual(['leaveWarmUp']);
});
