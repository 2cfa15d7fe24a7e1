// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { show } from './rendering';
import { STATES } from './states';
import { openWords, WORDED } from './wording';

afterEach(cleanup);
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const shown = async (name: string) => {
  const seat = show(STATES[name]!);
  await screen.findByRole('heading', { level: 1 });
  return seat;
};

describe('the voice check', () => {
  it('begins by one tap at the gate', () => {
    const seat = show({});
    press('Check my voice');
    expect(seat.did).toEqual([['checkVoice']]);
  });

  it('shows the line to be read, how far it is, and a way to skip and to end', async () => {
    const seat = await shown('voice-reading');
    expect(screen.getByText('pass').id).toBe('line');
    expect(screen.getByRole('progressbar', { name: '3 of 20' })).not.toBeNull();
    press('Skip this one');
    press('End the check');
    expect(seat.did).toEqual([
      ['steerVoiceCheck', 'skip'],
      ['steerVoiceCheck', 'stop'],
    ]);
  });

  it('says what a reading was taken for and asks once more', async () => {
    await shown('voice-again');
    expect(screen.getByRole('status').textContent).toContain('Heard “pause”. Once more, please.');
  });

  it('shows at once that the right words were heard, though they may go on', async () => {
    const reading = STATES['voice-again']!;
    show({ ...reading, voiceCheck: { ...reading.voiceCheck!, isHeard: true } });
    expect((await screen.findByRole('status')).textContent).toMatch(/Heard\.$/);
  });

  it('ends by Escape, and leaves by it once the results are shown', async () => {
    const seat = await shown('voice-reading');
    fireEvent.keyDown(document, { key: 'Escape' });
    act(() => seat.patch(STATES['voice-finished']!));
    fireEvent.keyDown(document, { key: 'Escape' });
    expect(seat.did).toEqual([['steerVoiceCheck', 'stop'], ['leave']]);
    expect(document.activeElement?.textContent).toBe('How you are heard');
  });

  it.each([
    ['voice-loading', 'status', 'The first line comes by itself'],
    ['voice-deaf', 'alert', 'The microphone was unplugged'],
    ['voice-nobody', 'alert', 'No reply was heard'],
    ['voice-failed', 'alert', 'The recogniser could not load'],
  ])('%s says what is wrong and what to do', async (name, role, words) => {
    await shown(name);
    expect(screen.getByRole(role).textContent).toContain(words);
  });

  it('in a room that is too loud says so, and goes on when told', async () => {
    const loud = STATES['voice-nobody']!;
    const seat = show({ ...loud, microphone: { ...loud.microphone, hearsWell: 'loud' } });
    await screen.findByText(/It is too loud here to check a voice/);
    press('Go on');
    expect(seat.did).toEqual([['steerVoiceCheck', 'go-on']]);
  });

  it('without a microphone tries it again when told, or goes back', async () => {
    const deaf = STATES['voice-deaf']!;
    const seat = show({ ...deaf, voiceCheck: { ...deaf.voiceCheck!, done: 0 } });
    await screen.findByRole('alert');
    press('Try the microphone again');
    press('Back to the start');
    expect(seat.did).toEqual([['steerVoiceCheck', 'go-on'], ['leave']]);
  });

  it('tells in plain words what is confused, and what to say instead', async () => {
    await shown('voice-finished');
    expect(screen.getByRole('status').textContent).toBe(
      '1 of 4 replies are heard well in your voice, here.',
    );
    expect(screen.getAllByRole('listitem').map((item) => item.textContent)).toEqual([
      'pass: taken for “pause”. Say “clear” instead: that is heard well.',
      'rep: heard, but not surely; it would be asked back. Say it slower, or use the button for it.',
      'next: not heard twice. Say it slower, or use the button for it.',
    ]);
  });

  it('tells that it has fitted itself, and forgets it in one tap', async () => {
    const finished = STATES['voice-finished']!;
    const seat = show({ ...finished, coach: { ...finished.coach, readings: 20 } });
    await screen.findByText(/fitted itself to your voice/);
    press('Forget my voice');
    expect(seat.did).toEqual([['forgetVoice']]);
  });

  it.each([
    ['full', 'out of space'],
    ['refused', 'does not let the page keep it'],
    ['damaged', 'It was set aside'],
  ] as const)('a record that is %s is told, at the gate and at the end', async (trouble, words) => {
    const coach = { ...STATES['voice-finished']!.coach, trouble };
    show({ coach });
    expect(document.body.textContent).toContain(words);
    show({ ...STATES['voice-finished']!, coach });
    await screen.findByText(new RegExp(words));
  });
});

describe("a coach's own words and call word", () => {
  const opened = async (answer: string | null = null) => {
    const seat = show(WORDED, answer);
    openWords();
    const own = within(await screen.findByRole('form', { name: 'Words of your own' }));
    const call = within(screen.getByRole('form', { name: 'Call word' }));
    return { seat, own, call };
  };

  it('are told on the gate before they are unfolded', () => {
    show(WORDED);
    expect(document.querySelector('.your-voice summary')?.textContent).toBe(
      'Words 1 of your own, call word “chalky”',
    );
    expect(screen.queryByRole('form')).toBeNull();
  });

  it('are added for the chosen reply, and the field is free for the next', async () => {
    const { seat, own } = await opened();
    fireEvent.change(own.getByLabelText('For'), { target: { value: 'results/held' } });
    fireEvent.change(own.getByLabelText('I say'), { target: { value: 'bosh' } });
    fireEvent.click(own.getByRole('button', { name: 'Add' }));
    await own.findByText(/Added: say “bosh” for “pass”/);
    expect(seat.did).toEqual([['addOwnWords', { kind: 'results', id: 'held' }, 'bosh']]);
    expect((own.getByLabelText('I say') as HTMLInputElement).value).toBe('');
  });

  it('that cannot be told apart are refused with why, and stay in the field', async () => {
    const { own } = await opened('“fast” sounds too much like “faster”. Choose other words.');
    const field = own.getByLabelText('I say') as HTMLInputElement;
    fireEvent.change(field, { target: { value: 'fast' } });
    fireEvent.click(own.getByRole('button', { name: 'Add' }));
    await own.findByText(/sounds too much like “faster”/);
    expect(field.value).toBe('fast');
    expect(field.getAttribute('aria-invalid')).toBe('true');
  });

  it('are listed by what they stand for, and taken away in one tap', async () => {
    const { seat, own } = await opened();
    expect(own.getByText('“so so” for “limited”')).not.toBeNull();
    fireEvent.click(own.getByRole('button', { name: 'Remove “so so”' }));
    expect(seat.did).toEqual([
      ['removeOwnWords', { kind: 'results', id: 'short', words: 'so so' }],
    ]);
  });

  it('the call word is set, refused with why, and switched off', async () => {
    const { seat, call } = await opened('"go" is too short.');
    fireEvent.change(call.getByLabelText('Call word'), { target: { value: 'go' } });
    fireEvent.click(call.getByRole('button', { name: 'Use it' }));
    await call.findByText(/is too short/);
    fireEvent.click(call.getByRole('button', { name: 'Call word off' }));
    expect(seat.did).toEqual([
      ['setCallWord', 'go'],
      ['setCallWord', ''],
    ]);
  });

  it('the run screen says that replies come after the call word, and not where it has just asked', () => {
    show({ ...STATES['run-check-open']!, coach: WORDED.coach });
    expect(screen.getByText(/You can say, after “chalky”/)).not.toBeNull();
    show({ ...STATES['run-offer']!, coach: WORDED.coach });
    expect(screen.getByText('You can say')).not.toBeNull();
  });
});
