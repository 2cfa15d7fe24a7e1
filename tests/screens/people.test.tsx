// @vitest-environment jsdom
import { act, cleanup, configure, fireEvent, screen, within } from '@testing-library/react';
import type { Person } from '../../src/domain/people/person';
import { afterEach, describe, expect, it } from 'vitest';
import { WAYS } from '../../src/domain/areas';
import { STATE } from './fakeSeat';
import { MARN, PEOPLE_STATES, TOSK } from './peopleStates';
import { faultsOfPage, show } from './rendering';

// Screens that come in files of their own take seconds on a busy machine.
configure({ asyncUtilTimeout: 15_000 });

afterEach(cleanup);
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const rows = () =>
  within(screen.getByRole('list'))
    .getAllByRole('button')
    .map(({ textContent }) => textContent.replace(/\s+/g, ' '));
const find = (text: string) =>
  fireEvent.change(screen.getByRole('searchbox', { name: 'Find by name or squad' }), {
    target: { value: text },
  });

describe('the first screen', () => {
  it('takes a newcomer to the gate in one tap, and into a session with the next', () => {
    const seat = show(PEOPLE_STATES['people-none']!);
    const [first] = screen.getAllByRole('button');
    expect(first?.textContent).toBe('Begin without a name');
    fireEvent.click(first!);
    act(() => seat.patch({ where: 'gate' }));
    press('They agree: begin by voice');
    expect(seat.did).toEqual([
      ['gate', null],
      ['begin', { routine: 'hinge', way: 'hands-on', listen: 'microphone' }],
    ]);
  });

  it('says in a line what to do where nobody is kept yet', () => {
    const seat = show(PEOPLE_STATES['people-none']!);
    expect(screen.getByText(/Nobody is kept here yet. Add an athlete/)).toBeTruthy();
    expect(screen.queryByRole('searchbox')).toBeNull();
    press('Show an invented club');
    expect(seat.did).toEqual([['showInvented']]);
  });

  it('does not say that nobody is kept before it has looked', () => {
    show(PEOPLE_STATES['people-loading']!);
    expect(screen.queryByText(/Nobody is kept/)).toBeNull();
    expect(screen.getByText(/Looking for your athletes/)).toBeTruthy();
  });

  it('offers an unfinished session before the athletes, and says whose it is', () => {
    const seat = show(PEOPLE_STATES['people-unfinished']!);
    const [cutOff, athletes] = screen.getAllByRole('region');
    expect(cutOff?.textContent).toMatch(
      /A session is not finished.*Quib Marn: Hinge, begun .*2031/,
    );
    expect(athletes?.textContent).toContain('Athletes');
    press(/^Go on/);
    press(/^Leave it/);
    expect(seat.did).toEqual([
      ['goOn', 's2'],
      ['discard', 's2'],
    ]);
  });

  it('offers each of several unfinished sessions: whose, when, and what was open', async () => {
    const seat = show(PEOPLE_STATES['people-unfinished-many']!);
    const cutOff = screen.getByRole('region', { name: '4 sessions are not finished' });
    const each = within(cutOff)
      .getAllByRole('listitem')
      .map(({ textContent }) => textContent);
    expect(each).toHaveLength(4);
    expect(each[0]).toMatch(
      /^\s*Invented Élodie Tosk: Hinge, begun .*2031.*Open: Bell hinge, left \(Hinge · .*set 1 of 2\)\./,
    );
    expect(each[2]).toMatch(/^Hinge, begun/);
    expect(within(cutOff).getByText('1 more, begun before those')).toBeTruthy();
    fireEvent.click(screen.getAllByRole('button', { name: /^Go on/ })[1]!);
    fireEvent.click(screen.getAllByRole('button', { name: /^Leave it: Quib Marn: Hinge/ })[1]!);
    expect(seat.did).toEqual([
      ['goOn', 's8'],
      ['discard', 's6'],
    ]);
    expect(await faultsOfPage()).toEqual([]);
  });

  it('one that did not go on says so, and stays offered', () => {
    const { unfinished, ...state } = PEOPLE_STATES['people-unfinished']!;
    show({ ...state, unfinished: unfinished.map((one) => ({ ...one, trouble: 'Not read.' })) });
    expect(screen.getByText('Not read.').closest('[role=alert]')).toBeTruthy();
    expect(screen.getByRole('button', { name: /^Go on/ })).toBeTruthy();
  });

  it('says before the tap that sessions run with the invented go away with them', () => {
    const { people, ...state } = PEOPLE_STATES['people-some']!;
    const [visit] = MARN.visits;
    const own = { ...visit!, head: { ...visit!.head, session: 'invented-own-1', person: 'tosk' } };
    show({ ...state, people: { ...people, all: [MARN, { ...TOSK, visits: [own] }] } });
    const button = screen.getByRole('button', { name: 'Take the invented club away' });
    expect(document.getElementById(button.getAttribute('aria-describedby')!)?.textContent).toBe(
      'The session that you ran with them goes away with the invented club.',
    );
    show(PEOPLE_STATES['people-some']!);
    expect(screen.queryByText(/that you ran with them/)).toBeNull();
  });

  it('says what to do where the people cannot be read', () => {
    show(PEOPLE_STATES['people-trouble']!);
    expect(
      screen.getByText(/does not let the page keep a record/).closest('[role=alert]'),
    ).toBeTruthy();
  });
});

describe('the list', () => {
  it('says of each athlete name, squad and what is open now, in words beside its shape', () => {
    show(PEOPLE_STATES['people-some']!);
    expect(rows()[1]).toBe(
      'Quib Marn Harbour juniors Overhead: ready to be taught Squat: a professional decides Hinge: working, due again',
    );
    expect(rows()[0]).toContain('Hinge: not tested yet');
    expect(document.querySelectorAll('.area-now .shape')).toHaveLength(6);
  });

  it('marks who is invented, and takes the club away with one tap', () => {
    const seat = show(PEOPLE_STATES['people-some']!);
    expect(rows()[0]).toMatch(/^Élodie Tosk Invented/);
    expect(rows()[1]).not.toContain('Invented');
    press('Take the invented club away');
    expect(seat.did).toEqual([['removeInvented']]);
  });

  it('is searched by name or squad, accents aside, and says how many there are', () => {
    show(PEOPLE_STATES['people-some']!);
    find('elodie');
    expect(rows()).toHaveLength(1);
    expect(screen.getByText('1 of 2')).toBeTruthy();
    find('harbour');
    expect(rows()[0]).toContain('Quib Marn');
    find('zz');
    expect(screen.getByText('Nobody is called that.')).toBeTruthy();
  });

  it('opens the page of the one that is tapped', () => {
    const seat = show(PEOPLE_STATES['people-some']!);
    press(/Quib Marn/);
    expect(seat.did).toEqual([['athlete', 'marn']]);
  });
});

describe('a part of the list', () => {
  const choices = () =>
    within(screen.getByLabelText('Show'))
      .getAllByRole('option')
      .map(({ textContent }) => textContent);
  const pick = (words: string) => {
    const { value } = screen.getByRole<HTMLOptionElement>('option', { name: words });
    fireEvent.change(screen.getByLabelText('Show'), { target: { value } });
  };

  it('is a squad, or who is due again, or for whom a professional decides, with how many', () => {
    const seat = show(PEOPLE_STATES['people-some']!);
    expect(choices()).toEqual([
      ...['Everybody (2)', 'Due again (1)', 'A professional decides (1)', 'Harbour juniors (1)'],
    ]);
    pick('Due again (1)');
    pick('Harbour juniors (1)');
    expect(seat.did).toEqual([
      ['narrow', 'due'],
      ['narrow', { squad: 'Harbour juniors' }],
    ]);
  });

  it.each(['due', 'waits', { squad: 'Harbour juniors' }] as const)('%j', (only) => {
    show({ where: 'people', people: { ...STATE.people, all: [TOSK, MARN], only } });
    expect(rows()).toEqual([expect.stringMatching(/^Quib Marn/)]);
    expect(screen.getByText('1 of 2')).toBeTruthy();
    find('tosk');
    expect(screen.getByText('Nobody is called that.')).toBeTruthy();
  });

  it('keeps those who are due apart from those for whom a professional decides', () => {
    const one = { ...TOSK, open: { ...TOSK.open, hinge: MARN.open.squat } };
    show({ where: 'people', people: { ...STATE.people, all: [one], only: 'waits' } });
    expect(rows()).toHaveLength(1);
    expect(screen.queryByRole('option', { name: /^Due again/ })).toBeNull();
  });

  it('is everybody where that squad is gone, and no choice where there is none', () => {
    const people = { ...STATE.people, all: [TOSK, MARN], only: { squad: 'Gone' } };
    show({ where: 'people', people });
    expect(rows()).toHaveLength(2);
    show({ where: 'people', people: { ...people, all: [TOSK], only: null } });
    expect(screen.queryByLabelText('Show')).toBeNull();
  });
});

describe('a squad', () => {
  const other = { ...TOSK, person: { ...TOSK.person, squad: 'Late' } };
  const open = async (answer: string | null = null) => {
    const people = { ...STATE.people, all: [other, MARN], only: { squad: 'Harbour juniors' } };
    const seat = show({ where: 'people', people }, answer);
    press('Change this squad');
    await screen.findByRole('form', { name: 'Change Harbour juniors' });
    return seat;
  };
  const name = () => screen.getByLabelText<HTMLInputElement>('Name of the squad');
  const type = (value: string) => fireEvent.change(name(), { target: { value } });

  it('is renamed for all of its athletes, and stays the one that is shown', async () => {
    const seat = await open();
    expect(document.activeElement).toBe(name());
    expect(name().value).toBe('Harbour juniors');
    type(' Harbour  seniors');
    await act(async () => press('Rename'));
    expect(seat.did).toEqual([
      ['save', [{ ...MARN.person, squad: 'Harbour seniors' }]],
      ['narrow', { squad: 'Harbour seniors' }],
    ]);
  });

  it('says before that two become one, and at the field what is wrong', async () => {
    const seat = await open();
    type('Late');
    expect(screen.getByText('There is a squad of this name: both become one.')).toBeTruthy();
    type('');
    press('Rename');
    expect(screen.getByText(/Type one, or dissolve the squad/)).toBeTruthy();
    expect(document.activeElement).toBe(name());
    expect(seat.did).toEqual([]);
    expect(await faultsOfPage()).toEqual([]);
  });

  it('is dissolved once it was asked again', async () => {
    const seat = await open();
    press('Dissolve this squad');
    expect(seat.did).toEqual([]);
    await act(async () => press('Dissolve: nobody is deleted'));
    expect(seat.did).toEqual([
      ['save', [{ ...MARN.person, squad: null }]],
      ['narrow', null],
    ]);
  });

  it('that cannot be kept says what to do, and stays open; it can be left', async () => {
    const seat = await open('Free some space.');
    type('Other');
    await act(async () => press('Rename'));
    expect(screen.getByText('Free some space.').closest('[role=alert]')).toBeTruthy();
    press('Cancel');
    expect(document.activeElement?.textContent).toBe('Change this squad');
    expect(seat.did.map(([what]) => what)).toEqual(['save']);
  });

  it('that is known is offered where the squad of an athlete is typed', async () => {
    show({ where: 'athlete', people: { ...STATE.people, all: [other, MARN], chosen: 'tosk' } });
    fireEvent.click(await screen.findByRole('button', { name: 'Change' }));
    const list = screen.getByLabelText('Squad').getAttribute('list');
    const offered = [...(document.getElementById(list ?? '')?.children ?? [])];
    expect(offered.map((one) => one.getAttribute('value'))).toEqual(['Harbour juniors', 'Late']);
  });
});

describe('the list as a file', () => {
  it('says what it holds, how many, and where it goes, before it goes', async () => {
    const seat = show(PEOPLE_STATES['people-some']!);
    const words = screen.getByText('Export the list').closest('details')?.textContent;
    expect(words).toMatch(/The one in your list, without the invented ones/);
    expect(words).toMatch(/personal facts.*downloads of this device and nowhere else/);
    await act(async () => press('Who they are'));
    expect(screen.getByText('sayso-who.csv is handed to your downloads.')).toBeTruthy();
    await act(async () => press('How they stand'));
    expect(seat.did).toEqual([
      ['takeOut', 'who'],
      ['takeOut', 'standing'],
    ]);
  });

  it('that cannot be made says what to do', async () => {
    show(PEOPLE_STATES['people-some']!, 'Try it again.');
    await act(async () => press('Who they are'));
    expect(screen.getByText('Try it again.').closest('[role=alert]')).toBeTruthy();
    expect(screen.queryByText(/handed to your downloads/)).toBeNull();
  });

  it('is not offered of nobody', () => {
    show(PEOPLE_STATES['people-none']!);
    expect(screen.queryByText('Export the list')).toBeNull();
  });
});

describe('adding an athlete', () => {
  const open = async () => {
    press('Add an athlete');
    return screen.findByRole('form', { name: 'Add an athlete' });
  };
  const type = (label: string, value: string) =>
    fireEvent.change(screen.getByLabelText(label), { target: { value } });

  it('takes two fields, keeps the rest for later, and opens their page', async () => {
    const seat = show(PEOPLE_STATES['people-none']!);
    const form = await open();
    expect(within(form).getAllByRole('textbox')).toHaveLength(2);
    expect(document.activeElement).toBe(screen.getByLabelText('Name'));
    type('Name', ' Vennel  Ashgrove ');
    type('Birth year', '2012');
    press('Add');
    await screen.findByRole('form');
    const [saved, opened] = seat.did;
    expect(saved).toMatchObject(['save', [{ name: 'Vennel Ashgrove', birthYear: 2012 }]]);
    const [person] = saved?.[1] as Person[];
    expect(person?.id).toMatch(/./);
    expect(opened).toEqual(['athlete', person?.id]);
  });

  it('keeps initials only of somebody under 18 until a guardian agreed, unless the coach wants otherwise', async () => {
    const seat = show(PEOPLE_STATES['people-none']!);
    await open();
    expect(screen.queryByLabelText(/^Initials only/)).toBeNull();
    type('Name', 'Vennel Ashgrove');
    type('Birth year', '2016');
    screen.getByText('Kept, shown, said and exported as V. A.');
    expect(await faultsOfPage()).toEqual([]);
    await act(async () => press('Add'));
    expect(seat.did[0]).toMatchObject(['save', [{ name: 'V. A.', birthYear: 2016 }]]);
    expect(JSON.stringify(seat.did)).not.toContain('Ashgrove');

    fireEvent.click(screen.getByLabelText(/^Initials only/));
    await act(async () => press('Add'));
    expect(seat.did.at(-2)).toMatchObject(['save', [{ name: 'Vennel Ashgrove' }]]);
  });

  it('needs no birth year', async () => {
    const seat = show(PEOPLE_STATES['people-none']!);
    await open();
    type('Name', 'Vennel');
    await act(async () => press('Add'));
    expect(seat.did[0]).toMatchObject(['save', [{ name: 'Vennel', birthYear: null }]]);
  });

  it('says at the field what is wrong, keeps what was typed, and goes there', async () => {
    const seat = show(PEOPLE_STATES['people-none']!);
    await open();
    type('Name', 'Vennel');
    type('Birth year', '12');
    press('Add');
    const year = screen.getByLabelText('Birth year');
    expect(year.getAttribute('aria-invalid')).toBe('true');
    const [wrong] = (year.getAttribute('aria-describedby') ?? '').split(' ');
    expect(document.getElementById(wrong ?? '')?.textContent).toMatch(/"12" is no year of birth/);
    expect(document.activeElement).toBe(year);
    expect(screen.getByLabelText<HTMLInputElement>('Name').value).toBe('Vennel');
    expect(await faultsOfPage()).toEqual([]);
    expect(seat.did).toEqual([]);
  });

  it('that cannot be kept says what to do, and stays', async () => {
    const seat = show(PEOPLE_STATES['people-none']!, 'Free some space.');
    await open();
    type('Name', 'Vennel');
    await act(async () => press('Add'));
    expect(screen.getByText('Free some space.').closest('[role=alert]')).toBeTruthy();
    expect(seat.did.map(([what]) => what)).toEqual(['save']);
  });

  it('can be left', async () => {
    show(PEOPLE_STATES['people-none']!);
    await open();
    press('Cancel');
    expect(screen.queryByRole('form')).toBeNull();
  });
});

describe('the gate for somebody', () => {
  it('says for whom it is, and goes back to the athletes', () => {
    const seat = show(PEOPLE_STATES['gate-named']!);
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('Begin for Quib Marn');
    press('Athletes');
    expect(seat.did).toEqual([['people']]);
    show({ ...STATE, people: { ...STATE.people, all: [TOSK], chosen: TOSK.person.id } });
    expect(screen.getByText('Invented')).toBeTruthy();
  });

  it('puts what to keep in mind of them right below their name', () => {
    show(PEOPLE_STATES['gate-named']!);
    const own = within(screen.getByRole('list', { name: 'Of Quib Marn' })).getAllByRole('listitem');
    expect(own.map(({ textContent }) => textContent.trim())).toEqual([
      'Keep in mind: Left shoulder stiff in the morning.',
      'Squat: a licensed professional decides before it goes on.',
      'May be under 18, and no consent of a guardian is noted.',
    ]);
    const [first] = within(screen.getByRole('main')).getAllByRole('list');
    expect(first).toBe(own[0]?.parentElement);
  });

  it('says when a guardian agreed, and nothing of it of an adult', () => {
    const of = (more: Partial<typeof MARN.person>) => {
      const one = { ...MARN, person: { ...MARN.person, ...more } };
      show({ ...STATE, people: { ...STATE.people, all: [one], chosen: 'marn' } });
      return screen.getByRole('list', { name: 'Of Quib Marn' }).textContent;
    };
    expect(of({ guardianAgreedOn: '2031-02-03' })).toContain(
      'A guardian agreed on 3 February 2031',
    );
    expect(of({ birthYear: 1990 })).not.toContain('guardian');
  });

  it('asks who leads where the routine is run in more ways than one, and says it so', () => {
    const routine = { id: 'hinge', name: 'Hinge', items: [] };
    const book = { ...STATE.book, routines: { hinge: { ...routine, ways: [...WAYS] } } };
    const seat = show({ book });
    fireEvent.click(screen.getByRole('radio', { name: /^Alone/ }));
    press('I agree: begin by touch');
    fireEvent.click(screen.getByRole('radio', { name: /^Group/ }));
    expect(screen.getByText(/You asked everybody/)).toBeTruthy();
    press('They agree: begin by touch');
    expect(seat.did).toEqual([
      ['begin', { routine: 'hinge', way: 'alone', listen: 'hands' }],
      ['begin', { routine: 'hinge', way: 'group', listen: 'hands' }],
    ]);
    show({ book: { ...book, routines: { hinge: { ...routine, ways: ['hands-on'] } } } });
    expect(screen.queryByRole('group', { name: 'How it is run' })).toBeNull();
  });
});
