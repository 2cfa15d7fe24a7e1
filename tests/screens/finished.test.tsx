// @vitest-environment jsdom
import { cleanup, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { show } from './rendering';
import { STATES } from './states';

afterEach(cleanup);
const items = (list: HTMLElement) =>
  within(list)
    .getAllByRole('listitem')
    .map(({ textContent }) => textContent?.replace(/\s+/g, ' ').trim());
const listUnder = (title: string) => {
  const region = screen.getByRole('region', { name: title });
  return items(within(region).getByRole('list'));
};

it('says the outcome of each area in words', () => {
  show(STATES['finished-working']!);
  expect(listUnder('Outcome')).toEqual(
    [
      'Hinge Working Rung 2 held. Homework: bell hinge.',
      'Overhead Unfinished Not every check has an answer yet.',
    ].map((text) => expect.stringMatching(new RegExp(text.replaceAll(' ', ' ?')))),
  );
});

it('lists every finding that counts: what, side, result, faults, angle with its tool, pain', () => {
  show(STATES['finished-working']!);
  const findings = listUnder('Findings');
  expect(findings[0]).toMatch(/Unloaded hinge.*Lost.*knees forward, toes up/);
  expect(findings[3]).toMatch(/Bell hinge.*Pain.*pain 2 of 10/);
  expect(findings[4]).toMatch(/Lying arm lift, left.*Short.*140° by eye/);
  expect(findings[5]).toMatch(/Hinge with the bar.*Not tested/);
});

it('gives every decision its reason and its rule', () => {
  show(STATES['finished-working']!);
  const [first, second] = listUnder('Decisions and why');
  expect(first).toMatch(/knees came forward.*on to bench hinge, rule 1\.4/);
  expect(second).toMatch(/two held sets.*on to Romanian deadlift, rule 2\.2/);
});

it('names the lifts that may be taught, or says that there are none', () => {
  show(STATES['finished-ready']!);
  expect(listUnder('Lifts that may be taught')).toEqual(['Pulls and deadlifts']);
  expect(screen.getByText('Ready to be taught')).toBeTruthy();
  show(STATES['finished-working']!);
  expect(screen.getByText(/None yet/)).toBeTruthy();
});

it.each(Object.keys(STATES).filter((name) => name.startsWith('finished')))(
  '%s never promises that a lift is harmless, and names the limits',
  (name) => {
    show(STATES[name]!);
    const text = document.body.textContent;
    expect(text).not.toMatch(/\bsafe(ly|ty)?\b/i);
    expect(text).toContain('coaching practice');
    expect(text).toContain('not medical advice');
  },
);

it('after a warning sign sends to a professional before anything else', () => {
  show(STATES['finished-red-flag']!);
  expect(screen.getByRole('heading', { level: 1 }).textContent).toContain(
    'Ended on a warning sign',
  );
  expect(screen.getByText(/licensed professional decides what comes next/)).toBeTruthy();
  expect(screen.getByText(/emergency number now/)).toBeTruthy();
  expect(listUnder('Outcome')[0]).toContain('Referred');
});

it('after an early end shows what there is', () => {
  show(STATES['finished-stopped']!);
  expect(screen.getByText('Nothing was answered.')).toBeTruthy();
  expect(screen.getByText('No area was begun.')).toBeTruthy();
  expect(screen.getByText(/nobody was tested/)).toBeTruthy();
});

it('goes back to the start', () => {
  const seat = show(STATES['finished-working']!);
  fireEvent.click(screen.getByRole('button', { name: 'Back to the start' }));
  expect(seat.did).toEqual([['leave']]);
});
