// @vitest-environment jsdom
import { fireEvent, screen } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import type { CueBook } from '../../src/domain/script';
import { BOOK, DONE_ONCE, HOMEWORK, HOMEWORK_STATES } from './homeworkStates';
import { faultsOfPage, show } from './rendering';
import { visitWith } from './visitStates';

const button = (name: string | RegExp) => screen.getByRole<HTMLButtonElement>('button', { name });
const arrived = (name: string | RegExp) => screen.findByRole('heading', { level: 1, name });

describe('the homework’s screen', () => {
  it.each(Object.entries(HOMEWORK_STATES))(
    '%s has nothing that axe minds, and the keyboard at its heading',
    async (_, state) => {
      show(state);
      const heading = await screen.findByRole('heading', { level: 1 });
      expect(document.activeElement).toBe(heading);
      expect(await faultsOfPage()).toEqual([]);
    },
  );

  it('begins only once it was said who agrees', async () => {
    const seat = show(HOMEWORK_STATES['homework-offered']);
    await arrived('Your homework');
    screen.getByText(/A licensed professional decides first|licensed professional decides first/);
    expect(button(/begin by touch/).disabled).toBe(true);
    fireEvent.click(screen.getByLabelText(/A guardian agreed, and a grown-up is with me/));
    fireEvent.click(button(/begin by touch/));
    expect(seat.did).toEqual([['beginHomework', 'hands']]);
  });

  it('says what is done today, with its dose and its caution', async () => {
    show(HOMEWORK_STATES['homework-offered']);
    await arrived('Your homework');
    const today = screen.getByRole('region', { name: 'Today' });
    expect(today.textContent).toMatch(/Hinge: bell hinge/);
    expect(today.textContent).toMatch(/Set the bar down the moment anything hurts/);
  });

  it('is worked out anew where something is not there', async () => {
    const book: CueBook = {
      ...BOOK,
      equipment: { kettlebell: { id: 'kettlebell', name: 'a kettlebell' } },
      drills: {
        ...BOOK.drills,
        'bell-hinge': { ...BOOK.drills['bell-hinge']!, equipment: ['kettlebell'] },
      },
    };
    const seat = show({ ...HOMEWORK_STATES['homework-offered'], book });
    await arrived('Your homework');
    fireEvent.click(screen.getByLabelText('a kettlebell'));
    expect(seat.did).toEqual([['notThere', ['kettlebell']]]);
  });

  it('tells what is left out and why, and has nothing to begin where all is', async () => {
    const left = [{ area: 'hinge', why: 'pain' } as const];
    const today = { ...HOMEWORK.today!, tasks: [], left };
    show({
      ...HOMEWORK_STATES['homework-offered'],
      homework: {
        ...{ kept: [], waits: false },
        stage: { at: 'homework', homework: { ...HOMEWORK, today }, isKept: true },
      },
    });
    await arrived('Your homework');
    screen.getByText(/pain forbids what is left/);
    expect(screen.queryByRole('button', { name: /begin/ })).toBeNull();
  });

  it('that fits this page no more has nothing to begin', async () => {
    show({
      ...HOMEWORK_STATES['homework-kept'],
      homework: {
        ...{ kept: [], waits: false },
        stage: { at: 'homework', homework: { ...DONE_ONCE, today: null }, isKept: true },
      },
    });
    await arrived('Your homework');
    screen.getByText(/Ask your coach for it anew/);
    expect(screen.queryByRole('button', { name: /begin/ })).toBeNull();
  });

  it('is sent back by the device’s own way, a link, a file or a code', async () => {
    const seat = show(HOMEWORK_STATES['homework-done']);
    await arrived('Session done');
    fireEvent.click(button('Send it back to the coach'));
    await screen.findByRole('button', { name: 'Send it' });
    fireEvent.click(button('Send it'));
    fireEvent.click(button('Copy the link'));
    await screen.findByText(/The link is copied/);
    fireEvent.click(button('Save as a file'));
    await screen.findByText('Saved as sayso-homework-2031-03-08.json. Send the file.');
    expect(seat.did).toEqual([['sendBack'], ['share'], ['copyLink'], ['saveFile']]);
    fireEvent.click(screen.getByText('Show a code'));
    const code = await screen.findByRole('img', { name: /QR code/ });
    expect(code.querySelector('rect')?.getAttribute('fill')).toBe('white');
    expect(code.querySelector('path')?.getAttribute('fill')).toBe('black');
    expect(await faultsOfPage()).toEqual([]);
  });

  it('says what to do where it cannot be made', async () => {
    show(HOMEWORK_STATES['homework-done'], 'Make it again.');
    await arrived('Session done');
    fireEvent.click(button('Send it back to the coach'));
    await screen.findByText('Make it again.');
  });

  it('is removed only after a second yes', async () => {
    const seat = show(HOMEWORK_STATES['homework-kept']);
    await arrived('Your homework');
    fireEvent.click(button('Remove it'));
    fireEvent.click(button('Keep it'));
    expect(seat.did).toEqual([]);
    fireEvent.click(button('Remove it'));
    fireEvent.click(button('Remove the homework'));
    expect(seat.did).toEqual([['removeHomework', '00f1a2b3c4d5e6f7']]);
  });

  it('opens a file, and a whole message with the link in it', async () => {
    const seat = show(HOMEWORK_STATES['homework-refused']);
    await arrived('It was not taken');
    screen.getByText(/This homework was cut off/);
    fireEvent.click(button('Open it'));
    await screen.findByText(/There is no link/);
    fireEvent.change(screen.getByLabelText('Or paste the link'), {
      target: { value: 'Here: https://gym.example/#homework=ab' },
    });
    fireEvent.click(button('Open it'));
    fireEvent.change(screen.getByLabelText('Choose a file'), {
      target: { files: [new File(['{}'], 'homework.json')] },
    });
    expect(seat.did).toEqual([
      ['openText', 'Here: https://gym.example/#homework=ab'],
      ['openFile', 2],
    ]);
  });

  it('in another language is opened in it', async () => {
    const seat = show(HOMEWORK_STATES['homework-other-language']);
    await arrived('In another language');
    fireEvent.click(button('Open it in Spanish'));
    expect(seat.did).toEqual([['chooseLanguage', 'es']]);
  });
});

describe('what came back, on the coach’s device', () => {
  it('of nobody known asks whose it is, and says that nobody saw it', async () => {
    const seat = show(HOMEWORK_STATES['homework-report']);
    await arrived('Homework came back');
    screen.getByText(/Reported by the athlete: nobody saw it/);
    const [one] = seat.state().people.all;
    fireEvent.change(screen.getByLabelText('Whose is it?'), {
      target: { value: one!.person.id },
    });
    fireEvent.click(button('Take it into the record'));
    expect(seat.did).toEqual([['join', one!.person.id]]);
  });

  it('of somebody known joins them, and leads to their page', async () => {
    const seat = show(HOMEWORK_STATES['homework-known-report'], 'No room here.');
    await arrived('Homework came back');
    expect(screen.queryByLabelText('Whose is it?')).toBeNull();
    fireEvent.click(button('Take it into the record'));
    await screen.findByText('No room here.');
    const { person } = seat.state().people.all[0]!;
    expect(seat.did).toEqual([['join', person.id]]);
    const joined = show(HOMEWORK_STATES['homework-joined']);
    await arrived('It is in the record');
    fireEvent.click(button(`To the page of ${person.name}`));
    expect(joined.did).toEqual([['athlete', person.id]]);
  });
});

describe('around it', () => {
  it('the first screen offers what is kept, and a link that waits', () => {
    const seat = show({
      where: 'people',
      homework: { stage: { at: 'opening' }, kept: [HOMEWORK], waits: true },
    });
    fireEvent.click(button('Open the link'));
    fireEvent.click(button('Open your homework of 7 March 2031'));
    fireEvent.click(button('Homework: open what you were sent'));
    expect(seat.did).toEqual([['openWaiting'], ['openKept', '00f1a2b3c4d5e6f7'], ['homework']]);
  });

  it('a visit hands its homework over, and a drill that needs a yes only after it', async () => {
    const state = visitWith({});
    if (state.visit?.state !== 'here') throw new Error('No visit is shown.');
    const { end } = state.visit;
    const asked = { ...end.homework[0]!, coach: 'only-if-allowed' as const };
    const homework = [{ ...asked, drill: 'deadlift' }];
    const seat = show({
      ...state,
      visit: { ...state.visit, end: { ...end, homework, reportedBy: 'coach' } },
    });
    await screen.findByRole('heading', { name: 'Hand it over' });
    expect(screen.queryByRole('button', { name: 'Hand over the homework' })).toBeNull();
    fireEvent.click(screen.getByLabelText('I allow the deadlift alone'));
    fireEvent.click(button('Hand over the homework'));
    await screen.findByText('Show a code');
    expect(seat.did.filter(([what]) => what === 'handOver')).toEqual([['handOver', ['deadlift']]]);
  });

  it('a visit that was reported says so, and hands nothing over', async () => {
    const state = visitWith({});
    if (state.visit?.state !== 'here') throw new Error('No visit is shown.');
    const end = { ...state.visit.end, reportedBy: 'athlete' as const };
    show({ ...state, visit: { ...state.visit, end } });
    await screen.findByText(/Reported by the athlete: nobody else saw it/);
    expect(screen.queryByRole('heading', { name: 'Hand it over' })).toBeNull();
  });
});
