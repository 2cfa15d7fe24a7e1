// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import type { MicrophoneState } from '../../src/screens/seat';
import { BOOK } from './book';
import { STATE } from './fakeSeat';
import { faultsOfPage, show } from './rendering';

afterEach(cleanup);
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const microphone = (state: MicrophoneState) => ({ ...STATE.microphone, state });

describe('beginning', () => {
  it('takes one tap: the first routine, by voice', () => {
    const seat = show({});
    press(/begin by voice/);
    expect(seat.did).toEqual([
      ['begin', { routine: 'hinge', way: 'hands-on', listen: 'microphone' }],
    ]);
  });

  it('begins the chosen routine by touch, without the microphone', () => {
    const seat = show({});
    fireEvent.click(screen.getByRole('radio', { name: 'Overhead' }));
    press(/begin by touch/);
    expect(seat.did).toEqual([
      ['begin', { routine: 'overhead', way: 'hands-on', listen: 'hands' }],
    ]);
  });

  it('says what is to be asked before hands go on right after what is run, before all settings', () => {
    show({});
    const titles = [...document.querySelectorAll('.card :is(legend, h2)')].map(
      ({ textContent }) => textContent,
    );
    expect(titles.slice(0, 3)).toEqual(['What to run', 'Before hands go on', 'Language']);
  });

  it('says by the button itself that they were asked and agree, and of what', () => {
    show({});
    for (const how of ['voice', 'touch']) {
      const button = screen.getByRole('button', { name: `They agree: begin by ${how}` });
      const line = document.getElementById(button.getAttribute('aria-describedby') ?? '');
      expect(line?.textContent).toMatch(
        /You asked about pain, injury, surgery, pregnancy, heart .* they agree to hands on/,
      );
    }
    expect(screen.queryByRole('checkbox', { name: /agree/ })).toBeNull();
  });

  it('shows the cautions in plain words', () => {
    show({});
    const text = document.body.textContent;
    for (const words of [
      'pain, injury, surgery, pregnancy, and heart or blood-pressure history',
      'licensed professional decides',
      'not medical advice',
      'Ask before you touch',
      'Under 18',
      'works at any moment',
    ]) {
      expect(text).toContain(words);
    }
  });

  it('lets a newcomer watch a rehearsal in one tap, with nothing to acknowledge', () => {
    const seat = show({ microphone: microphone('none') });
    press('Watch a rehearsal');
    expect(seat.did).toEqual([['rehearsal', 'hinge']]);
  });
});

describe('what is not in this gym', () => {
  const routine = (area: 'hinge' | 'overhead') => ({
    id: area,
    name: area,
    ways: ['hands-on' as const],
    items: (['checks', 'ladder'] as const).map((what) => ({ do: what, area })),
  });
  const drill = (id: string, equipment: string[]) => ({ ...BOOK.drills[id]!, equipment });
  const book = {
    ...BOOK,
    equipment: {
      bench: { id: 'bench', name: 'a bench' },
      'light-bell': { id: 'light-bell', name: 'a light bell' },
      mat: { id: 'mat', name: 'a mat', orElse: 'a folded towel' },
    },
    routines: { hinge: routine('hinge'), overhead: routine('overhead') },
    drills: { ...BOOK.drills, 'bench-hinge': drill('bench-hinge', ['bench', 'mat']) },
  };
  const list = () => document.querySelector('details')!;
  const open = () => list().setAttribute('open', '');
  const boxes = () =>
    [...list().querySelectorAll('label')].map(({ textContent }) => textContent.trim());

  it('is closed at first, and lists what the chosen routine may use and a gym may lack', () => {
    show({ book });
    expect(list().open).toBe(false);
    expect(screen.getByText(/Not in this gym/).tagName).toBe('SUMMARY');
    expect(boxes()).toEqual(['a bench']);
  });

  it('is not mentioned where the routine needs nothing', () => {
    show({ book });
    fireEvent.click(screen.getByRole('radio', { name: 'Overhead' }));
    expect(document.querySelector('details.not-here')).toBeNull();
  });

  it('goes with the session, and the line says how much is ticked', () => {
    const seat = show({ book });
    open();
    expect(list().textContent).toContain('nothing ticked');
    fireEvent.click(screen.getByRole('checkbox', { name: 'a bench' }));
    expect(list().textContent).toContain('1 ticked');
    press(/begin by touch/);
    expect(seat.did).toEqual([
      ['begin', { routine: 'hinge', way: 'hands-on', listen: 'hands', missing: ['bench'] }],
    ]);
  });

  it('can be taken back, and another routine is told only of what it uses', () => {
    const seat = show({ book });
    open();
    const bench = () => screen.getByRole('checkbox', { name: 'a bench' });
    fireEvent.click(bench());
    fireEvent.click(bench());
    press(/begin by touch/);
    fireEvent.click(bench());
    fireEvent.click(screen.getByRole('radio', { name: 'Overhead' }));
    press(/begin by touch/);
    expect(seat.did).toEqual([
      ['begin', { routine: 'hinge', way: 'hands-on', listen: 'hands' }],
      ['begin', { routine: 'overhead', way: 'hands-on', listen: 'hands' }],
    ]);
  });

  it('has nothing that axe objects to, open or closed', async () => {
    show({ book });
    expect(await faultsOfPage()).toEqual([]);
    open();
    expect(await faultsOfPage()).toEqual([]);
  });
});

describe('which ear and which voice', () => {
  const device = [
    { id: 'urn:ada', name: 'Ada', quality: 'good' as const },
    { id: 'urn:bo', name: 'Bo', quality: 'poor' as const },
  ];
  const voices = { device, speaks: 'urn:ada', wordsPerMinute: null };
  const sound = () => document.querySelector<HTMLDetailsElement>('details.sound')!;

  it('is said at once, and the voice can be chosen there', () => {
    const seat = show({ voices, ear: { state: 'ready', progress: 1, size: 'strong', why: null } });
    expect(screen.getByText(/The better of the two recognisers hears/)).toBeTruthy();
    expect(sound().querySelector('summary')?.textContent).toContain('Ada, normal, no music');
    sound().open = true;
    const field = screen.getByLabelText('Voice of the cues');
    fireEvent.change(field, { target: { value: 'sayso' } });
    act(() => seat.patch({ voices: { ...voices, speaks: 'sayso' } }));
    expect(sound().querySelector('summary')?.textContent).toContain('Sayso’s own voice');
    expect(seat.did).toEqual([['chooseVoice', 'sayso']]);
  });

  it('says so where the small ear hears, and where no voice does', () => {
    show({ voice: 'none', ear: { state: 'ready', progress: 1, size: 'small', why: null } });
    expect(screen.getByText(/The small recogniser hears already/)).toBeTruthy();
    expect(sound().querySelector('summary')?.textContent).toContain('no voice, all in large type');
  });

  it('in a language without Sayso’s own voice, those of the device are there to choose', () => {
    const language = { chosen: 'es', all: ['en', 'es'], isHeard: false, notFetched: null };
    show({ language, voices });
    sound().open = true;
    const options = within(screen.getByLabelText('Voice of the cues')).getAllByRole('option');
    expect(options.map(({ textContent }) => textContent)).toEqual([
      'Ada (clear)',
      'Bo (hard to follow)',
    ]);
    show({ language });
    expect(sound().querySelector('summary')?.textContent).toContain('no voice yet');
    expect(screen.queryByLabelText('Voice of the cues')).toBeNull();
  });
});

describe('the microphone', () => {
  it('can be tried before anything starts', () => {
    const seat = show({});
    press('Try the microphone');
    expect(seat.did).toEqual([['tryMicrophone']]);
  });

  it('shows how loud it is and whether it hears well', () => {
    const seat = show({ microphone: { state: 'hears', level: 0.25, hearsWell: 'quiet' } });
    const meter = screen.getByRole('meter', { name: 'Loudness' });
    expect(meter.getAttribute('aria-valuenow')).toBe('25');
    expect(screen.getByText(/Too quiet/)).toBeTruthy();
    act(() => seat.patch({ microphone: { state: 'hears', level: 0.75, hearsWell: 'good' } }));
    expect(meter.getAttribute('aria-valuenow')).toBe('75');
    expect(screen.getByText(/Hears you well/)).toBeTruthy();
  });

  it.each<[MicrophoneState, RegExp]>([
    ['denied', /not allowed.*page settings/],
    ['none', /No microphone was found.*plug one in/],
    ['unplugged', /was unplugged.*plug it in/],
    ['failed', /ear could not start.*reload/],
  ])('%s: says what is missing, and leads with touch', (state, words) => {
    const seat = show({ microphone: microphone(state) });
    expect(document.body.textContent).toMatch(words);
    expect(document.body.textContent).toContain('Touch and keys do everything');
    const [first] = screen.getAllByRole('button', { name: /begin by/ });
    expect(first?.textContent).toContain('touch');
    fireEvent.click(first!);
    expect(seat.did).toEqual([['begin', { routine: 'hinge', way: 'hands-on', listen: 'hands' }]]);
  });

  it('tells a screen reader of a change of the microphone, politely', () => {
    const seat = show({});
    const told = () => screen.getAllByRole('status').map(({ textContent }) => textContent);
    act(() => seat.patch({ microphone: microphone('unplugged') }));
    expect(told().join()).toContain('was unplugged');
  });

  it('says what to do while the browser asks', () => {
    show({ microphone: microphone('asking') });
    expect(screen.getByText(/choose Allow/)).toBeTruthy();
  });

  it('shows how far the recogniser has loaded, and what a failed load means', () => {
    const seat = show({ ear: { state: 'loading', progress: 0.4 } });
    expect(screen.getByRole('progressbar').getAttribute('value')).toBe('0.4');
    act(() => seat.patch({ ear: { state: 'failed', progress: null } }));
    expect(screen.queryByRole('progressbar')).toBeNull();
    expect(screen.getByText(/recogniser could not load/)).toBeTruthy();
  });

  it.each([
    [false, true],
    [true, false],
    [undefined, false],
  ])('hears over Sayso’s voice: %s; says how to stop while it speaks: %s', (hears, isSaid) => {
    const open = { state: 'hears', level: 0.2, hearsWell: 'good' } as const;
    show({ microphone: { ...open, ...(hears !== undefined && { hearsOverSound: hears }) } });
    const line = screen.queryByText(/cannot hear “stop” over Sayso’s voice/);
    expect(line !== null).toBe(isSaid);
    if (isSaid) expect(line?.textContent).toMatch(/screen, a key or the headset/);
  });

  it('says that the small recogniser hears already, until the better one does', () => {
    const seat = show({ ear: { state: 'ready', progress: 1, size: 'small', why: null } });
    expect(screen.getByText(/small recogniser hears already/)).toBeTruthy();
    act(() => seat.patch({ ear: { state: 'ready', progress: 1, size: 'strong', why: null } }));
    expect(screen.queryByText(/small recogniser/)).toBeNull();
  });

  it.each([
    ['missing', /did not arrive.*Check the connection/],
    ['damaged', /arrived damaged.*Reload/],
    ['slow', /too slow for the better recogniser/],
  ] as const)('says that the small recogniser stays where the better one is %s', (why, words) => {
    show({ ear: { state: 'ready', progress: 1, size: 'small', why } });
    expect(screen.getByText(words)).toBeTruthy();
    expect(screen.queryByText(/on its way/)).toBeNull();
  });

  it('says that cues are shown where no voice was found', () => {
    show({ voice: 'none' });
    expect(screen.getByText(/No voice was found/)).toBeTruthy();
  });
});

describe('who speaks', () => {
  const voices = {
    device: [
      { id: 'a', name: 'Alma', quality: 'good' as const },
      { id: 'b', name: 'Bo', quality: 'poor' as const },
    ],
    speaks: 'a',
    wordsPerMinute: 172,
  };

  it('is chosen among the voices of the device and the shipped one, and heard at once', () => {
    const seat = show({ voices });
    const choice = screen.getByRole<HTMLSelectElement>('combobox', { name: 'Voice of the cues' });
    expect([...choice.options].map(({ text }) => text)).toEqual([
      'Alma (clear)',
      'Bo (hard to follow)',
      'Sayso’s own voice (the same on every device)',
    ]);
    expect(choice.value).toBe('a');
    fireEvent.change(choice, { target: { value: 'sayso' } });
    press('Hear it');
    expect(seat.did).toEqual([
      ['chooseVoice', 'sayso'],
      ['chooseVoice', 'a'],
    ]);
  });

  it('says that counts are the own voice, and how fast a voice was found to speak', () => {
    show({ voices });
    expect(screen.getByText(/Counts are always Sayso’s own voice/).textContent).toContain(
      '172 words a minute',
    );
  });
});

describe('how much is said', () => {
  const names = () =>
    screen.getAllByRole<HTMLInputElement>('radio', { name: /^(Learn|Norm|Tones)/ });

  it('is one of three, named in the line that folds it away, and changed with one tap', () => {
    const seat = show({ words: 'tones' });
    expect(names().map(({ value, checked }) => [value, checked])).toEqual([
      ['learning', false],
      ['normal', false],
      ['tones', true],
    ]);
    expect(screen.getByText(/Voice, words, music/).textContent).toContain('tones only');
    fireEvent.click(screen.getByRole('radio', { name: /^Learning/ }));
    expect(seat.did).toEqual([['chooseWords', 'learning']]);
    act(() => seat.patch({ words: 'learning' }));
    expect(names()[0]?.checked).toBe(true);
  });

  it('has nothing that axe objects to when it is open', async () => {
    show({});
    document.querySelector('details.sound')?.setAttribute('open', '');
    expect(await faultsOfPage()).toEqual([]);
  });
});

describe('music', () => {
  it('is a file of the device, named while it plays, and taken away with one tap', () => {
    const seat = show({});
    const file = new File(['sound'], 'warm.mp3', { type: 'audio/mpeg' });
    fireEvent.change(screen.getByLabelText(/A sound file of this device/), {
      target: { files: [file] },
    });
    act(() => seat.patch({ music: { name: 'warm.mp3', trouble: false } }));
    expect(screen.getByText(/Playing warm.mp3/)).toBeTruthy();
    press('No music');
    expect(seat.did).toEqual([['playMusic', 'warm.mp3'], ['removeMusic']]);
  });

  it('that the browser cannot play is said so, with what to do', () => {
    show({ music: { name: null, trouble: true } });
    const alerts = screen.getAllByRole('alert').map(({ textContent }) => textContent);
    expect(alerts.join()).toMatch(/choose an MP3 or WAV/);
  });
});
