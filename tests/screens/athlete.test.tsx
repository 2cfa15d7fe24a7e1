// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import type { SeatState } from '../../src/screens/seat';
import { MARN, PEOPLE_STATES } from './peopleStates';
import { faultsOfPage, show as shown } from './rendering';

afterEach(cleanup);
/** The screen comes in a file of its own. */
const show = async (state: SeatState, answer: string | null = null) => {
  const seat = shown(state, answer);
  await screen.findByRole('heading', { level: 1 });
  return seat;
};
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const items = (list: HTMLElement) =>
  within(list)
    .getAllByRole('listitem')
    .map(({ textContent }) => textContent.replace(/\s+/g, ' ').trim());
const listIn = (title: string) =>
  items(within(screen.getByRole('region', { name: title })).getByRole('list'));

describe('the page of an athlete', () => {
  it('begins for them, and goes back to the list', async () => {
    const seat = await show(PEOPLE_STATES['athlete']!);
    expect(document.activeElement).toBe(screen.getByRole('heading', { level: 1 }));
    press('Begin');
    press('Athletes');
    expect(seat.did).toEqual([['gate', 'marn'], ['people']]);
  });

  it('says what is open now by area, with why and when it is due', async () => {
    await show(PEOPLE_STATES['athlete']!);
    expect(listIn('Open now')).toEqual([
      'Overhead: ready to be taughtFound on 1 March 2031. Due again on 29 March 2031.',
      'Squat: a professional decidesFound on 1 March 2031. After pain or a warning sign a licensed professional decides what comes next; no date is named.',
      'Hinge: working, due againFound on 1 March 2031. Last held: the bench hinge. Due again since 8 March 2031.',
    ]);
    await show(PEOPLE_STATES['athlete-new']!);
    expect(listIn('Open now')[0]).toContain('No session has come to an outcome for it.');
    expect(screen.getByText('None yet.')).toBeTruthy();
    expect(screen.getByText('Invented')).toBeTruthy();
  });

  it('lists the visits, newest first; each opens what it came to', async () => {
    const seat = await show(PEOPLE_STATES['athlete']!);
    expect(listIn('Visits')).toEqual([
      '1 March 2031, hingeHinge working',
      '20 February 2031, hingeHinge unfinished',
    ]);
    press(/20 February/);
    expect(seat.did).toEqual([['visit', 's1']]);
  });

  it('says that a minor has no consent noted, and shows what is known', async () => {
    await show(PEOPLE_STATES['athlete']!);
    const known = screen.getByRole('region', { name: 'What is known' }).textContent;
    expect(known).toContain('no consent of a guardian is noted');
    for (const fact of ['Harbour juniors', '2014', '162 cm', '45.5 cm', 'inclinometer', 'stiff'])
      expect(known).toContain(fact);
  });

  it('of somebody who was deleted says so and leads back', async () => {
    const seat = await show(PEOPLE_STATES['athlete-gone']!);
    press('To the athletes');
    expect(seat.did).toEqual([['people']]);
  });
});

describe('changing what is known', () => {
  const type = (label: string, value: string) =>
    fireEvent.change(screen.getByLabelText(label), { target: { value } });

  it('keeps every field that was changed, and leaves the others', async () => {
    const seat = await show(PEOPLE_STATES['athlete']!);
    press('Change');
    type('Stature', '1.7 m');
    type('Angles are read', 'goniometer');
    type('A guardian agreed on', '2031-03-02');
    await act(async () => press('Save'));
    expect(seat.did).toEqual([
      [
        'save',
        [
          {
            ...MARN.person,
            statureMillimetres: 1700,
            angleTool: 'goniometer',
            guardianAgreedOn: '2031-03-02',
          },
        ],
      ],
    ]);
    expect(screen.queryByRole('form')).toBeNull();
    expect(document.activeElement).toBe(screen.getByRole('button', { name: 'Change' }));
  });

  it('says at each field what is wrong and what to write, and loses nothing', async () => {
    const seat = await show(PEOPLE_STATES['athlete']!);
    press('Change');
    type('Name', '');
    type('Knee, measured', '48 ells');
    screen.getByLabelText('Knee, measured').focus();
    press('Save');
    expect(screen.getByText(/There is no name/)).toBeTruthy();
    expect(screen.getByText(/"48 ells" is no length/)).toBeTruthy();
    expect(document.activeElement).toBe(screen.getByLabelText('Name'));
    expect(screen.getByLabelText<HTMLInputElement>('Knee, measured').value).toBe('48 ells');
    expect(await faultsOfPage()).toEqual([]);
    expect(seat.did).toEqual([]);
  });

  it('that cannot be kept says what to do and stays open', async () => {
    await show(PEOPLE_STATES['athlete']!, 'Free some space.');
    press('Change');
    await act(async () => press('Save'));
    expect(screen.getByText('Free some space.').closest('[role=alert]')).toBeTruthy();
    expect(screen.getByRole('form')).toBeTruthy();
  });
});

describe('initials only', () => {
  it('take the place of the name of somebody under 18 for good, which is said first', async () => {
    const seat = await show(PEOPLE_STATES['athlete']!);
    press('Change');
    expect(screen.getByLabelText<HTMLInputElement>(/^Initials only/).checked).toBe(false);
    fireEvent.click(screen.getByLabelText(/^Initials only/));
    screen.getByText(/Quib Marn is replaced for good/);
    expect(await faultsOfPage()).toEqual([]);
    await act(async () => press('Save'));
    expect(seat.did).toEqual([['save', [{ ...MARN.person, name: 'Q. M.' }]]]);
  });
});

describe('deleting', () => {
  it('says what goes and what stays, asks once more, and can be left', async () => {
    const seat = await show(PEOPLE_STATES['athlete']!);
    const region = screen.getByRole('region', { name: 'Delete' });
    expect(region.textContent).toContain('stay in the record, without a name');
    press('Delete Quib Marn');
    expect(document.activeElement?.textContent).toBe('Keep');
    press('Keep');
    expect(seat.did).toEqual([]);
    press('Delete Quib Marn');
    await act(async () => press('Delete Quib Marn for good'));
    expect(seat.did).toEqual([['forget', 'marn']]);
  });
});

describe('a past visit', () => {
  it('says what it was, and leads back to their page', async () => {
    const seat = await show(PEOPLE_STATES['visit']!);
    expect(screen.getByRole('heading', { level: 1 }).textContent).toMatch(/inge, 1 March 2031/);
    expect(screen.getByRole('region', { name: 'Outcome' }).textContent).toContain('Working');
    press('Quib Marn');
    expect(seat.did).toEqual([['athlete', 'marn']]);
  });

  it('tells what was heard and decided in its order, with the reason of each', async () => {
    await show(PEOPLE_STATES['visit']!);
    expect(listIn('What was heard and decided')).toEqual([
      '0:00We begin with the unloaded hinge.Decided for hinge, on to unloaded hinge, rule 10.1',
      '1:07 “knees came forward”Unloaded hinge: understood as knees forward, taken back later',
      '1:10 Taken backHeard: “scratch that”',
      '1:21 “what a day”Unloaded hinge: not taken as an answer',
      '3:07 passUnloaded hinge: answered by hand',
      '3:07You decide: on to the bench hinge.Decided for hinge, on to bench hinge, rule 9.3, by the coach',
    ]);
  });

  it('stands beside the visit before', async () => {
    await show(PEOPLE_STATES['visit']!);
    expect(listIn('Since 20 February 2031')).toEqual([
      'Hinge: unfinished before, working at the bench hinge now.',
      'Unloaded hinge: did not hold before, held now.',
    ]);
  });

  it('that cannot be read says so', async () => {
    await show(PEOPLE_STATES['visit-trouble']!);
    expect(screen.getByText(/cannot be read here/).closest('[role=alert]')).toBeTruthy();
  });

  it('that is damaged opens up to the damage, without a grade', async () => {
    const { visit } = PEOPLE_STATES['visit']!;
    const upTo = visit?.state === 'here' ? visit.moments.slice(0, 2) : [];
    await show({
      ...PEOPLE_STATES['visit']!,
      visit: { state: 'trouble', trouble: 'Entry 9 of this session was damaged.', upTo },
    });
    screen.getByText('This stands before the damage, as it was written:');
    expect(listIn('What was heard and decided')).toHaveLength(2);
    expect(screen.queryByText(/Ready to be taught/i)).toBeNull();
    expect(await faultsOfPage()).toEqual([]);
  });
});

describe('straight after a session', () => {
  it('says whose it was, shows the timeline and leads to their page', async () => {
    const seat = await show(PEOPLE_STATES['finished-named']!);
    expect(screen.getByText('Quib Marn')).toBeTruthy();
    expect(listIn('What was heard and decided')).toHaveLength(6);
    press('To the page of Quib Marn');
    expect(seat.did).toEqual([['leave']]);
  });
});
