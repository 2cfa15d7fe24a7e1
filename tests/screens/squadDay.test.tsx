// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { NO_REPLY } from '../../src/domain/hearing/reply';
import { faultsOfPage, show } from './rendering';
import { squadDay, SQUAD_DAY_STATES } from './squadDayStates';
import { STATES } from './states';

beforeAll(() => {
  document.documentElement.lang = 'en';
  document.title = 'Sayso';
});
afterEach(cleanup);

const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const tick = (name: string | RegExp) => fireEvent.click(screen.getByRole('checkbox', { name }));
const state = (name: string) => SQUAD_DAY_STATES[name]!;
const said = (command: 'ready' | 'next-person' | 'stop' | 'yes' | 'no' | 'repeat') => [
  'reply',
  { ...NO_REPLY, command },
];

it.each(Object.keys(SQUAD_DAY_STATES))('%s has nothing that axe objects to', async (name) => {
  show(state(name));
  await screen.findByRole('heading', { level: 1 });
  expect(await faultsOfPage()).toEqual([]);
});

describe('before a squad day', () => {
  const choosing = async () => {
    const seat = show(state('squad-day-choosing'));
    await screen.findByRole('heading', { level: 1, name: 'Squad day' });
    return seat;
  };
  const order = () =>
    within(screen.getByRole('region', { name: 'In this order' }))
      .queryAllByRole('listitem')
      .map((item) => item.textContent?.replace(/Out$/, ''));

  it('says which ear and which voice, as the gate does, and leads to the microphone check', async () => {
    const seat = await choosing();
    screen.getByRole('region', { name: 'Does it hear you?' });
    expect(screen.getByText('Voice, words, music').textContent).toContain('Sayso’s own voice');
    press('Check it from where you stand');
    expect(seat.did).toEqual([['checkMicrophone']]);
  });

  it('what was chosen is there again after the microphone was checked', async () => {
    const draft = {
      people: ['ash', 'marn'],
      wanted: { routine: 'overhead', way: 'hands-on' as const, notHere: [] },
    };
    const { day } = squadDay({ stage: 'choosing' });
    show({ ...state('squad-day-choosing'), squadDay: squadDay({ stage: 'choosing', day, draft }) });
    await screen.findByRole('heading', { level: 1, name: 'Squad day' });
    expect(order()).toEqual(['1. Ash Vennel', '2. Quib Marn']);
    expect(screen.getByRole<HTMLInputElement>('radio', { name: 'Overhead' }).checked).toBe(true);
  });

  it('what is chosen is kept where the screen is left', async () => {
    const seat = await choosing();
    const kept: unknown[] = [];
    seat.squadDay.keepDraft = (draft) => kept.push(draft);
    tick('Quib Marn');
    act(() => seat.patch({ where: 'microphone' }));
    expect(kept).toMatchObject([{ people: ['marn'], wanted: { routine: 'hinge' } }]);
  });

  it('athletes are ticked, put in order, and all begin with one tap', async () => {
    const seat = await choosing();
    expect(screen.getByRole<HTMLButtonElement>('button', { name: /begin by voice/ }).disabled).toBe(
      true,
    );
    tick('Quib Marn');
    tick('Ash Vennel');
    tick(/Élodie Tosk/);
    press('Élodie Tosk up');
    expect(order()).toEqual(['1. Quib Marn', '2. Élodie Tosk', '3. Ash Vennel']);
    press('Take Ash Vennel out');
    press('Quib Marn down');
    expect(order()).toEqual(['1. Élodie Tosk', '2. Quib Marn']);
    fireEvent.click(screen.getByRole('radio', { name: 'Overhead' }));
    press('They agree: begin by voice');
    expect(seat.did.at(-1)).toEqual([
      'beginSquadDay',
      {
        ...{ people: ['tosk', 'marn'], routine: 'overhead', way: 'hands-on' },
        ...{ listen: 'microphone', missing: [] },
      },
    ]);
  });

  it('a whole squad comes at once, after those who are ticked already', async () => {
    await choosing();
    tick(/Élodie Tosk/);
    fireEvent.change(screen.getByLabelText('Show'), { target: { value: 'Harbour juniors' } });
    press('Tick all of Harbour juniors (2)');
    expect(order()).toEqual(['1. Élodie Tosk', '2. Ash Vennel', '3. Quib Marn']);
  });

  it('the keyboard stays with whom it moves, also at the end of the list', async () => {
    await choosing();
    press(/Tick everybody/);
    const up = screen.getByRole('button', { name: 'Quib Marn up' });
    up.focus();
    fireEvent.click(up);
    await waitFor(() =>
      expect(document.activeElement?.getAttribute('aria-label')).toBe('Quib Marn up'),
    );
    fireEvent.click(document.activeElement!);
    await waitFor(() =>
      expect(document.activeElement?.getAttribute('aria-label')).toBe('Quib Marn down'),
    );
  });

  it('what to mind of each is shown once, and who lacks the consent of a guardian is named', async () => {
    await choosing();
    expect(screen.queryByRole('region', { name: 'To keep in mind today' })).toBeNull();
    tick('Quib Marn');
    tick('Ash Vennel');
    const mind = within(screen.getByRole('region', { name: 'To keep in mind today' }));
    mind.getByText(/No consent of a guardian is noted for Quib Marn\./);
    mind.getByText('Keep in mind: Left shoulder stiff in the morning.');
    mind.getByText('Squat: a licensed professional decides before it goes on.');
    expect(mind.queryByText('Ash Vennel')).toBeNull();
    screen.getByRole('region', { name: 'Before hands go on' });
    screen.getByText(/2 athletes: You asked everybody about pain/);
  });

  it('without a microphone touch leads', async () => {
    const seat = show({
      ...state('squad-day-choosing'),
      microphone: { state: 'denied', level: 0, hearsWell: 'unknown' },
    });
    await screen.findByRole('heading', { level: 1 });
    tick('Quib Marn');
    const buttons = screen.getAllByRole('button', { name: /They agree/ });
    expect(buttons[0]?.className).toBe('first');
    fireEvent.click(buttons[0]!);
    expect(seat.did.at(-1)).toMatchObject(['beginSquadDay', { listen: 'hands' }]);
  });
});

describe('between two athletes', () => {
  it('shows who is next, what to mind, what is left, and every word as a button', async () => {
    const seat = show(state('squad-day-between'));
    await screen.findByRole('heading', { level: 1, name: 'Next: Élodie Tosk' });
    screen.getByText('Squad day · 1 comes after that');
    const left = within(screen.getByRole('region', { name: 'The day so far' }));
    expect(left.getAllByRole('listitem').map((item) => item.textContent?.trim())).toEqual([
      'Quib Marn seen',
      'Élodie Tosk to come',
      'Ash Vennel comes back later',
    ]);
    press('Ready');
    press('Next person');
    press('Repeat');
    press('Stop: end the squad day');
    expect(seat.did).toEqual([said('ready'), said('next-person'), said('repeat'), said('stop')]);
  });

  it('keys answer: all but Escape by what they mean, Escape is stop', async () => {
    const seat = show(state('squad-day-between'));
    await screen.findByRole('heading', { level: 1 });
    fireEvent.keyDown(document.body, { key: 'PageDown' });
    fireEvent.keyDown(document.body, { key: 'PageDown', repeat: true });
    fireEvent.keyDown(document.body, { key: 'Tab' });
    fireEvent.keyDown(document.body, { key: 'Escape' });
    expect(seat.did).toEqual([['key', 'PageDown'], said('stop')]);
  });

  it('the question whether to end has its yes and its no', async () => {
    const seat = show(state('squad-day-end'));
    await screen.findByRole('heading', { level: 1, name: 'End the squad day?' });
    press('Yes, end it');
    press('No, go on');
    expect(seat.did).toEqual([said('yes'), said('no')]);
  });

  it('the next one is read out where the screen changes', async () => {
    const seat = show(state('squad-day-between'));
    const heading = await screen.findByRole('heading', { level: 1 });
    expect(document.activeElement).toBe(heading);
    screen.getByRole('button', { name: 'Ready' }).focus();
    act(() => {
      const { day } = squadDay({});
      seat.patch({ squadDay: squadDay({ day: { ...day, waiting: [], seen: day.seen } }) });
    });
    screen.getByRole('heading', { level: 1, name: 'Next: Ash Vennel' });
    expect(document.activeElement).toBe(heading);
  });
});

describe('a warning sign between two', () => {
  it('says what was said, that help comes first, and where it is noted', async () => {
    show(state('squad-day-sign'));
    await screen.findByRole('heading', { level: 1, name: 'Help first' });
    screen.getByText(/A warning sign was said: chest pain\. Get help now/);
    screen.getByText(/noted with the visit of Quib Marn, who was seen last\. If it was somebody/);
    show(state('squad-day-sign-kept'));
    await screen.findByText('It is being noted.');
    expect(screen.getByText('Not yet.').closest('[role=alert]')).toBeTruthy();
  });

  it('is there again when the day is over, with the one on whose page it is', async () => {
    show(state('squad-day-over-sign'));
    const said = await screen.findByText(/A warning sign was said before their turn: chest pain/);
    expect(said.closest('li')?.textContent).toContain('Élodie Tosk');
  });
});

it('while a session is on its way, the heading says whose, and not who comes after', async () => {
  const { day } = squadDay({});
  const [tosk] = day.waiting;
  show({
    ...state('squad-day-between'),
    squadDay: squadDay({ stage: 'running', day: { ...day, now: tosk!, waiting: [] } }),
  });
  await screen.findByRole('heading', { level: 1, name: 'Getting ready: Élodie Tosk' });
  expect(screen.queryByText(/Next: /)).toBeNull();
});

it('where no ear hears the language, the words are typed', async () => {
  const seat = show(state('squad-day-typed'));
  fireEvent.change(await screen.findByRole('textbox', { name: /Type your answer/ }), {
    target: { value: 'listo' },
  });
  press('Send');
  expect(seat.did).toEqual([['type', 'listo']]);
});

describe('in a session of a squad day', () => {
  it('whose it is and what is left are shown, and "next person" has its button', async () => {
    const seat = show(state('squad-day-running'));
    await screen.findByText(/For Élodie Tosk · 1 left after that/);
    press('Next person');
    expect(seat.did).toEqual([said('next-person')]);
  });

  it('while pain is asked about there is no such button, and on another day never', async () => {
    show({ ...state('squad-day-running'), view: STATES['run-pain-number']!.view });
    await screen.findByText(/For Élodie Tosk/);
    expect(screen.queryByRole('button', { name: 'Next person' })).toBeNull();
    show(STATES['run-set-open']!);
    await screen.findByRole('heading', { level: 1 });
    expect(screen.queryByRole('button', { name: 'Next person' })).toBeNull();
    expect(screen.queryByText(/left after that/)).toBeNull();
  });
});

describe('after a squad day', () => {
  it('how each stands now, what was left open and why, and the way to each page', async () => {
    const seat = show(state('squad-day-over'));
    await screen.findByRole('heading', { level: 1, name: 'The squad day is over' });
    screen.getByText('1 of 3 athletes seen, 2 left.');
    const cards = screen.getAllByRole('listitem').map((item) => item.textContent ?? '');
    expect(cards[0]).toContain('Quib Marn');
    expect(cards[0]).toContain('Hinge: working, due again');
    expect(cards[0]).not.toContain('Left at');
    expect(cards[1]).toContain('Not had a turn. No session was begun.');
    expect(cards[2]).toContain('Left for the next person. It goes on where it stopped.');
    press('To the page of Quib Marn');
    press('Go on after all: 2 left');
    press('Done: to the athletes');
    expect(seat.did).toEqual([['athlete', 'marn'], ['goOnSquadDay'], ['leaveSquadDay']]);
  });

  it('why a session ended early is said', async () => {
    const { people } = state('squad-day-over');
    const all = people.all.map((one) => ({
      ...one,
      visits: one.visits.map((visit) => ({
        ...visit,
        head: { ...visit.head, ended: 'red-flag' as const },
      })),
    }));
    show({ ...state('squad-day-over'), people: { ...people, all } });
    await screen.findByText(/Ended on a warning sign/);
  });
});

describe('on the screen of the athletes', () => {
  it('a day under way is offered with who is left, without the deleted', async () => {
    const seat = show(state('squad-day-kept'));
    fireEvent.click(
      await screen.findByRole('button', { name: 'Go on with the squad day: 2 left' }),
    );
    press('End the squad day');
    expect(seat.did).toEqual([['goOnSquadDay'], ['endSquadDay']]);
    const { people } = state('squad-day-kept');
    show({
      ...state('squad-day-kept'),
      people: { ...people, all: people.all.filter(({ person }) => person.id !== 'ash') },
    });
    await screen.findByRole('button', { name: 'Go on with the squad day: 1 left' });
  });

  it('one that could not be read is told to be dropped, and a new one can be chosen', async () => {
    const seat = show(state('squad-day-dropped'));
    await screen.findByText(/could not be read, and is dropped/);
    press('Squad day');
    expect(seat.did).toEqual([['squadDay']]);
  });

  it('what came of the day can be seen again until it is left', async () => {
    const seat = show({ ...state('squad-day-over'), where: 'people' });
    fireEvent.click(await screen.findByRole('button', { name: /What came of the squad day/ }));
    expect(seat.did).toEqual([['squadDay']]);
  });
});
