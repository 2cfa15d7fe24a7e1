// @vitest-environment jsdom
import { cleanup, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import type { SeatState } from '../../src/screens/seat';
import { show as shown } from './rendering';
import { STATES } from './states';

afterEach(cleanup);
/** The screen comes in a file of its own. */
const show = async (state: Partial<SeatState>) => {
  const seat = shown(state);
  await screen.findByRole('heading', { level: 1 });
  return seat;
};
const items = (list: HTMLElement) =>
  within(list)
    .getAllByRole('listitem')
    .map(({ textContent }) => textContent?.replace(/\s+/g, ' ').trim());
const listUnder = (title: string) => {
  const region = screen.getByRole('region', { name: title });
  return items(within(region).getByRole('list'));
};

it('says the outcome of each area, its pattern and its reasons in words', async () => {
  await show(STATES['finished-working']!);
  const outcomes = screen.getByRole('region', { name: 'Outcome' });
  expect(outcomes.textContent).toContain('Working');
  expect(outcomes.textContent).toContain('The hinge needs work, from the bell hinge on.');
  expect(outcomes.textContent).toContain('position given up (knees forward)');
  expect(outcomes.textContent).toContain('not tested, since the unloaded check did not hold');
  expect(outcomes.textContent).toContain('Unfinished');
});

it('lists every finding that counts: what, side, result, faults, angle with its tool, pain', async () => {
  await show(STATES['finished-working']!);
  const findings = listUnder('Findings');
  expect(findings[0]).toMatch(/Unloaded hinge.*Lost.*knees forward, toes up/);
  expect(findings[3]).toMatch(/Bell hinge.*Pain.*pain 2 of 10, known/);
  expect(findings[4]).toMatch(/Lying arm lift, left.*Short.*140° by eye/);
  expect(findings[5]).toMatch(/Hinge with the bar.*Not tested/);
});

it('says where a number for pain was asked for and not given', async () => {
  const end = STATES['finished-working']!.view!.end!;
  const [first] = end.findings;
  const silent = { ...first!, result: 'pain' as const, pain: null, painKind: null };
  const view = { ...STATES['finished-working']!.view!, end: { ...end, findings: [silent] } };
  await show({ ...STATES['finished-working']!, view });
  expect(listUnder('Findings')[0]).toContain('no number given');
});

it('gives every decision that counts its reason, its rule and who decided', async () => {
  await show(STATES['finished-working']!);
  const decisions = listUnder('Decisions and why');
  expect(decisions).toHaveLength(2);
  expect(decisions[0]).toMatch(/knees came forward.*on to bell hinge, rule 2\.2$/);
  expect(decisions[1]).toMatch(/You decide.*rule 9\.3, decided by the coach$/);
});

it('names the lifts that may be taught, and what is missing for the rest', async () => {
  await show(STATES['finished-ready']!);
  expect(listUnder('Lifts that may be taught')).toEqual(['Pulls and deadlifts']);
  expect(screen.getByText('Ready to be taught')).toBeTruthy();
  expect(screen.queryByText(/what is missing/)).toBeNull();
  await show(STATES['finished-working']!);
  expect(screen.getByText(/None yet/)).toBeTruthy();
  expect(items(screen.getByRole('list', { name: /what is missing/ }))).toEqual([
    'Pulls and deadlifts: missing hinge (working at the bell hinge).',
  ]);
});

it('sends what an athlete found alone to a coach before any lift is taught', async () => {
  await show(STATES['finished-alone']!);
  expect(listUnder('Show these to your coach')).toEqual(['Pulls and deadlifts']);
  expect(listUnder('Outcome')[0]).toContain('Held, by your own report');
  expect(document.body.textContent).not.toMatch(/may be taught|Ready to be taught/);
  expect(screen.getByText(/coach should see it before these lifts are taught/)).toBeTruthy();
});

it('after pain titles an area neither ready nor merely worked at', async () => {
  await show(STATES['finished-after-pain']!);
  const outcomes = listUnder('Outcome');
  expect(outcomes[0]).toMatch(/^Squat Held, nothing loaded yet/);
  expect(outcomes[1]).toMatch(/^Hinge Stopped by pain/);
  expect(outcomes.join(' ')).not.toMatch(/Ready to be taught|Working/);
});

it('says of each check what its angles say, and where the figures come from', async () => {
  await show(STATES['finished-measured']!);
  const angles = screen.getByRole('region', { name: 'Angles' });
  expect(items(within(angles).getByRole('list', { name: 'Lying arm lift' }))).toEqual([
    'Left: 140, then 152 degrees by inclinometer.Within what it can be out by.',
    'Left and right differ by 6 degrees.',
  ]);
  expect(
    within(angles)
      .getByText(/Dougherty 2015/)
      .closest('details'),
  ).toBeTruthy();
  await show(STATES['finished-working']!);
  expect(screen.queryByRole('region', { name: 'Angles' })).toBeNull();
});

it('gives the homework with its dose, load, needs, coach and caution', async () => {
  await show(STATES['finished-working']!);
  const task = screen.getByRole('article', { name: 'Hinge: bell hinge' });
  for (const text of [
    '3 sets of 6',
    'Put one more block under the bell.',
    'The top of the bell stands at knee height.',
    'a kettlebell; blocks or plates',
    'a dumbbell stood on end',
    'never more load than the coach handed over',
    'Put the bell down at once',
  ]) {
    expect(task.textContent).toContain(text);
  }
});

it('says why there is no homework', async () => {
  await show(STATES['finished-forbidden']!);
  const homework = screen.getByRole('region', { name: 'Homework' });
  expect(homework.textContent).toContain('Hinge: no homework.');
  expect(homework.textContent).not.toContain('None from this session');
  await show(STATES['finished-ready']!);
  expect(screen.getByText('None from this session.')).toBeTruthy();
});

it('suggests the next date in words, on the calendar of no time zone', async () => {
  await show(STATES['finished-working']!);
  const visit = screen.getByRole('region', { name: 'Next visit' });
  expect(visit.textContent).toContain('28 February 2026');
  expect(visit.querySelector('time')?.getAttribute('datetime')).toBe('2026-02-28');
  await show(STATES['finished-red-flag']!);
  const none = screen.getByRole('region', { name: 'Next visit' });
  expect(none.querySelector('time')).toBeNull();
  expect(none.textContent).toContain('No date after a warning sign.');
});

it.each(Object.keys(STATES).filter((name) => name.startsWith('finished')))(
  '%s never promises that a lift is harmless, and names the limits',
  async (name) => {
    await show(STATES[name]!);
    const text = document.body.textContent;
    expect(text).not.toMatch(/\bsafe(ly|ty)?\b/i);
    expect(text).toContain('coaching practice');
    expect(text).toContain('not medical advice');
  },
);

it('after a warning sign sends to a professional before anything else', async () => {
  await show(STATES['finished-red-flag']!);
  expect(screen.getByRole('heading', { level: 1 }).textContent).toContain(
    'Ended on a warning sign',
  );
  expect(screen.getByText(/licensed professional decides what comes next/)).toBeTruthy();
  expect(screen.getByText(/emergency number now/)).toBeTruthy();
  expect(listUnder('Outcome')[0]).toContain('Referred');
  expect(screen.queryByRole('article')).toBeNull();
});

it('after an early end shows what there is', async () => {
  await show(STATES['finished-stopped']!);
  expect(screen.getByText('Nothing was answered.')).toBeTruthy();
  expect(screen.getByText('No area was begun.')).toBeTruthy();
  expect(screen.getByText(/nobody was tested/)).toBeTruthy();
});

it('goes back to the start', async () => {
  const seat = await show(STATES['finished-working']!);
  fireEvent.click(screen.getByRole('button', { name: 'Back to the start' }));
  expect(seat.did).toEqual([['leave']]);
});
