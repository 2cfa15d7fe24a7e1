// @vitest-environment jsdom
import { act, cleanup, configure, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import type { Person } from '../../src/domain/people/person';
import type { FakeSeat } from './fakeSeat';
import { MARN, PEOPLE_STATES, TOSK } from './peopleStates';
import { faultsOfPage, show } from './rendering';

// Screens that come in files of their own take seconds on a busy machine.
configure({ asyncUtilTimeout: 15_000 });

afterEach(cleanup);
const LIST = 'Name,Team,Born,Shoe\nVennel Ashgrove,Harbour,1999,44\nQuib Marn,Harbour,2014,\n';
const csv = (text: string | Uint8Array<ArrayBuffer>, name = 'squad.csv') => new File([text], name);

const open = async (answer: string | null = null) => {
  const seat = show(PEOPLE_STATES['import']!, answer);
  await screen.findByLabelText('Choose a file');
  return seat;
};
const choose = (...files: File[]) =>
  fireEvent.change(screen.getByLabelText(/^Choose (a file|again)$/), { target: { files } });
const comes = async (text: string) =>
  expect((await screen.findByText(text)).getAttribute('role')).toBe('status');
const holds = (title: string) => screen.getByLabelText<HTMLSelectElement>(title);
const pick = (title: string, words: string) =>
  fireEvent.change(holds(title), {
    target: {
      value: within(holds(title)).getByRole<HTMLOptionElement>('option', { name: words }).value,
    },
  });
const items = () =>
  within(screen.getByRole('region', { name: 'Who will come' }))
    .queryAllByRole('listitem')
    .map(({ textContent }) => textContent.replace(/\s+/g, ' ').trim());
const saved = (seat: FakeSeat) =>
  seat.did.flatMap(([what, people]) => (what === 'save' ? [people as Person[]] : []));
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));

describe('a list is brought', () => {
  it('from the first screen', () => {
    const seat = show(PEOPLE_STATES['people-none']!);
    press('Import a list');
    expect(seat.did).toEqual([['import']]);
  });

  it('by a file: its columns are guessed, who will come is told, and one tap keeps them', async () => {
    const seat = await open();
    choose(csv(LIST));
    await comes('1 athlete, 1 left out.');
    expect(['Name', 'Team', 'Born', 'Shoe'].map((title) => holds(title).value)).toEqual([
      ...['name', 'squad', 'birthYear', ''],
    ]);
    expect(screen.getByText('Vennel Ashgrove · Quib Marn')).toBeTruthy();
    expect(items()).toEqual([
      'Vennel Ashgrove Harbour, born 1999',
      'Line 3: Quib Marn, born 2014, is in your list and stays as they are.',
    ]);
    expect(await faultsOfPage()).toEqual([]);
    expect(saved(seat)).toEqual([]);
    press('Add 1 athlete');
    await screen.findByRole('heading', { name: '1 athlete came' });
    expect(saved(seat)).toMatchObject([
      [{ name: 'Vennel Ashgrove', squad: 'Harbour', birthYear: 1999, isInvented: false }],
    ]);
    expect(saved(seat)[0]![0]!.id).toMatch(/./);
    expect(document.activeElement?.textContent).toBe('1 athlete came');
    expect(await faultsOfPage()).toEqual([]);
    press('To the athletes');
    expect(seat.did.at(-1)).toEqual(['people']);
  });

  it('and those under 18 without consent come by their initials, unless that is not wanted', async () => {
    const seat = await open();
    choose(csv('Name,Born\nOrla Finch,2016\nTam Brae,1999\n'));
    await comes('2 athletes.');
    expect(items()).toEqual(['O. F. born 2016', 'Tam Brae born 1999']);
    fireEvent.click(screen.getByLabelText('Keep only the initials of that one'));
    expect(items()[0]).toBe('Orla Finch born 2016');
    fireEvent.click(screen.getByLabelText('Keep only the initials of that one'));
    press('Add 2 athletes');
    await screen.findByRole('heading', { name: '2 athletes came' });
    expect(saved(seat)[0]!.map(({ name }) => name)).toEqual(['O. F.', 'Tam Brae']);
  });

  it('and somebody real comes although somebody invented is called the same', async () => {
    await open();
    choose(csv(`Name\n${TOSK.person.name}\n`));
    await comes('1 athlete.');
  });

  it('by what the coach says that a column holds, at once', async () => {
    await open();
    choose(csv('Vorname,Was\nVennel Ashgrove,1.62 m\nAsh Vennel,170 cm\n'));
    // Titles that are not known are somebody, until the coach says what they are.
    await comes('3 athletes.');
    expect(items()[0]).toBe('Vorname');
    fireEvent.click(screen.getByRole('checkbox', { name: 'The first line has the titles' }));
    await comes('2 athletes.');
    expect(items()[0]).toBe('Vennel Ashgrove');
    pick('Was', 'Stature');
    expect(items()[0]).toBe('Vennel Ashgrove 162 cm');
    pick('Vorname', 'Leave it out');
    await comes(
      'Nobody yet: one thing needs mending first. Until then nothing of the file is added.',
    );
    expect(items()[0]).toContain('No column is chosen for the name.');
    expect(screen.queryByRole('button', { name: /^Add/ })).toBeNull();
    fireEvent.click(screen.getByRole('checkbox', { name: 'The first line has the titles' }));
    expect(holds('Column 2').value).toBe('stature');
  });

  it('with every problem by line and column, and none of it is kept until all are mended', async () => {
    const seat = await open();
    choose(csv('Name,Born,Height (cm)\nVennel,1999,170\nAsh,12,\n,2001,900\n'));
    await comes(
      'Nobody yet: 3 things need mending first. Until then nothing of the file is added.',
    );
    expect(items()).toEqual([
      expect.stringMatching(/^Line 3, Born: "12" is no year of birth/),
      expect.stringMatching(/^Line 4, Name: There is no name/),
      expect.stringMatching(/^Line 4, Height \(cm\): /),
    ]);
    expect(await faultsOfPage()).toEqual([]);
    choose(csv('Name,Born,Height (cm)\nVennel,1999,170\nAsh,2012,\nQuib,2001,190\n'));
    await comes('3 athletes.');
    press('Add 3 athletes');
    await screen.findByRole('heading', { name: '3 athletes came' });
    expect(saved(seat)[0]!.map(({ name }) => name)).toEqual(['Vennel', 'Ash', 'Quib']);
    expect(new Set(saved(seat)[0]!.map(({ id }) => id)).size).toBe(3);
  });

  it('with many problems, the first of them, and all when asked', async () => {
    await open();
    choose(csv(`Name,Born\n${Array.from({ length: 60 }, (_, at) => `Quib ${at},x\n`).join('')}`));
    await comes(
      'Nobody yet: 60 things need mending first. Until then nothing of the file is added.',
    );
    expect(items()).toHaveLength(50);
    press('Show all 60');
    expect(items()).toHaveLength(60);
  });

  it('that names the same person twice, who comes once', async () => {
    await open();
    choose(csv('Name,Born\nVennel,1999\nVENNEL,1999\n'));
    await comes('1 athlete, 1 left out.');
    expect(items()[1]).toBe('Line 3: VENNEL, born 1999, stands on line 2 too.');
  });

  it('where everybody is there already, and says that nobody is new', async () => {
    await open();
    choose(csv('Name,Born\nQuib Marn,2014\n'));
    await comes('Nobody new: everybody of the file is in your list already.');
    expect(screen.queryByRole('button', { name: /^Add/ })).toBeNull();
  });

  it('and says that the accents were guessed', async () => {
    await open();
    choose(csv(Uint8Array.from('Name\n\u00D1u Marn', (letter) => letter.charCodeAt(0))));
    await comes('1 athlete.');
    expect(screen.getByText(/Look at the accents/)).toBeTruthy();
    expect(items()[0]).toBe('Ñu Marn');
    pick('Name', 'Leave it out');
    expect(screen.getByText(/Look at the accents/)).toBeTruthy();
    choose(csv('Name\nÑu Marn'));
    await screen.findByText('Read: squad.csv');
    await comes('1 athlete.');
    expect(screen.queryByText(/Look at the accents/)).toBeNull();
  });

  it('and says of whom no consent is noted, who may be a child', async () => {
    await open();
    choose(csv('Name,Born\nVennel,2020\nAsh,1990\n'));
    await comes('2 athletes.');
    expect(screen.getByText(/^1 of them may be under 18/)).toBeTruthy();
  });
});

describe('a file that is no list', () => {
  it('says what to do, and one that can be read takes its place', async () => {
    await open();
    choose(csv('PK\u0003\u0004', 'squad.xlsx'));
    expect(
      (await screen.findByText(/save the list as CSV, and/)).closest('[role=alert]'),
    ).toBeTruthy();
    choose(csv(LIST));
    await comes('1 athlete, 1 left out.');
    expect(screen.queryByText(/save the list as CSV, and/)).toBeNull();
    choose(csv(''));
    await screen.findByText(/^The file is empty/);
    expect(screen.queryByRole('region', { name: 'Who will come' })).toBeNull();
  });

  it('cannot be kept: says what to do, and the list stays to be tried again', async () => {
    const seat = await open('Free some space.');
    choose(csv(LIST));
    await comes('1 athlete, 1 left out.');
    press('Add 1 athlete');
    expect((await screen.findByText('Free some space.')).closest('[role=alert]')).toBeTruthy();
    press('Add 1 athlete');
    await act(async () => undefined);
    expect(saved(seat)).toHaveLength(2);
    // Another file has not been refused yet.
    choose(csv('Name\nAsh\n'));
    await comes('1 athlete.');
    expect(screen.queryByText('Free some space.')).toBeNull();
  });

  it('waits for the athletes who are there, or doubles would come', async () => {
    const seat = await open();
    act(() => seat.patch({ people: { ...PEOPLE_STATES['import']!.people, state: 'loading' } }));
    choose(csv(LIST));
    await screen.findByText('Read: squad.csv');
    expect(screen.queryByRole('region', { name: 'Who will come' })).toBeNull();
    act(() => seat.patch({ people: { ...PEOPLE_STATES['import']!.people, all: [MARN] } }));
    await comes('1 athlete, 1 left out.');
  });
});

describe('the choice of a file', () => {
  it('can be made again with the same file, after it was mended', async () => {
    await open();
    const given: string[] = [];
    Object.defineProperty(screen.getByLabelText('Choose a file'), 'value', {
      set: (value: string) => given.push(value),
    });
    choose(csv(LIST));
    await comes('1 athlete, 1 left out.');
    // Otherwise a browser sees no change in the same name.
    expect(given).toEqual(['']);
  });

  it('is the last one, however slowly those before are read', async () => {
    const seat = await open();
    const slow: ((read: { say: string }) => void)[] = [];
    const read = seat.people.readSheet.bind(seat.people);
    seat.people.readSheet = () => new Promise((resolve) => slow.push(resolve));
    choose(csv(LIST, 'first.csv'));
    expect(screen.getByText('Reading first.csv.')).toBeTruthy();
    seat.people.readSheet = read;
    choose(csv(LIST, 'second.csv'));
    await screen.findByText('Read: second.csv');
    await act(async () => slow[0]!({ say: 'too late' }));
    expect(screen.queryByText('too late')).toBeNull();
    expect(screen.getByText('Read: second.csv')).toBeTruthy();
  });

  it('is made by dropping a file anywhere, one at a time', async () => {
    await open();
    const dataTransfer = { types: ['Files'], files: [csv(LIST)] };
    expect(fireEvent.dragOver(document.body, { dataTransfer })).toBe(false);
    expect(fireEvent.drop(document.body, { dataTransfer })).toBe(false);
    await comes('1 athlete, 1 left out.');
    fireEvent.drop(document.body, { dataTransfer: { files: [csv('a'), csv('b')] } });
    await screen.findByText(/Drop one after the other/);
  });

  it('leads back to the athletes', async () => {
    const seat = await open();
    press('Athletes');
    expect(seat.did).toEqual([['people']]);
  });
});
