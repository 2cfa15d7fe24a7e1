// @vitest-environment jsdom
import { cleanup, configure, fireEvent, screen } from '@testing-library/react';
import { afterEach, beforeAll, expect, it } from 'vitest';
import { faultsOfPage, show } from './rendering';
import { openWords, WORDED } from './wording';
import { KEYS_STATES } from './keysStates';
import { PEOPLE_STATES } from './peopleStates';
import { STATES } from './states';

// Screens that come in files of their own take seconds on a busy machine.
configure({ asyncUtilTimeout: 15_000 });

const ALL = { ...STATES, ...PEOPLE_STATES, ...KEYS_STATES };

beforeAll(() => {
  document.documentElement.lang = 'en';
  document.title = 'Sayso';
});
afterEach(cleanup);

it.each(Object.keys(ALL))('%s has nothing that axe objects to', async (name) => {
  show(ALL[name]!);
  // Some screens come in files of their own.
  await screen.findByRole('heading', { level: 1 });
  expect(await faultsOfPage()).toEqual([]);
});

it('the words of the coach have nothing that axe objects to', async () => {
  show(WORDED);
  openWords();
  await screen.findByRole('form', { name: 'Call word' });
  expect(await faultsOfPage()).toEqual([]);
});

it('the finished screen has nothing that axe objects to when every list is unfolded', async () => {
  show(PEOPLE_STATES['finished-named']!);
  await screen.findByRole('heading', { level: 1 });
  const folded = [...document.querySelectorAll('details')];
  expect(folded.length).toBeGreaterThan(2);
  for (const list of folded) list.open = true;
  expect(await faultsOfPage()).toEqual([]);
});

it('the sheets of faults and of warning signs have nothing that axe objects to', async () => {
  show(STATES['run-set-open']!);
  fireEvent.click(screen.getByRole('button', { name: 'Lost…' }));
  expect(await faultsOfPage()).toEqual([]);
  fireEvent.click(screen.getByRole('button', { name: 'Unwell' }));
  expect(await faultsOfPage()).toEqual([]);
});

it('the form of a squad and the words of the export have nothing that axe objects to', async () => {
  show(PEOPLE_STATES['people-squad']!);
  fireEvent.click(screen.getByRole('button', { name: 'Change this squad' }));
  await screen.findByRole('form', { name: 'Change Harbour juniors' });
  for (const list of document.querySelectorAll('details')) list.open = true;
  expect(await faultsOfPage()).toEqual([]);
});

it('axe would object to a button without a name', async () => {
  show(STATES['gate-first']!);
  document.body.append(document.createElement('button'));
  expect(await faultsOfPage()).toEqual([expect.stringContaining('button-name')]);
  document.body.lastElementChild?.remove();
});

it('the form of an athlete has nothing that axe objects to, nor does the last question before it goes', async () => {
  show(PEOPLE_STATES['athlete']!);
  fireEvent.click(await screen.findByRole('button', { name: 'Change' }));
  fireEvent.click(screen.getByRole('button', { name: /^Delete/ }));
  expect(screen.getAllByRole('textbox').length).toBeGreaterThan(4);
  expect(await faultsOfPage()).toEqual([]);
});
