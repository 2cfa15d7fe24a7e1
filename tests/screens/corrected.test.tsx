// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import type { SeatState } from '../../src/screens/seat';
import type { VisitHands, VisitState } from '../../src/screens/finished/state';
import { PEOPLE_STATES } from './peopleStates';
import { faultsOfPage, show as shown } from './rendering';
import { HURT, LOST, VISIT_STATES, visitWith } from './visitStates';

afterEach(cleanup);
const show = async (state: SeatState, trouble: string | null = null) => {
  const seat = shown(state);
  const refuse = async () => trouble;
  const hands: Partial<VisitHands> = { correct: refuse, addNote: refuse, close: refuse };
  if (trouble !== null) Object.assign(seat.visits, hands);
  await screen.findByRole('heading', { level: 1 });
  for (const list of document.querySelectorAll('details')) list.open = true;
  return seat;
};
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const settle = (name: string | RegExp) => act(async () => press(name));
const choose = (label: string, value: string) =>
  fireEvent.change(screen.getByLabelText(label), { target: { value } });
const tick = (name: string) => fireEvent.click(screen.getByLabelText(name, { exact: true }));
const findings = () => screen.getByRole('region', { name: 'Findings' });
const open = (what: string) => press(`Correct ${what}`);
const form = () => screen.getByRole('form', { name: /^Correct/ });

describe('a finding that is corrected', () => {
  it('is put right with the answers of the run screen', async () => {
    const seat = await show(VISIT_STATES['visit-record']!);
    open('Unloaded hinge');
    tick('Short');
    tick('knees forward');
    choose('Angle, degrees', '140');
    await settle('Save the correction');
    const { first, finding } = LOST;
    expect(seat.did).toEqual([
      [
        'correct',
        {
          ...{ finding, of: null },
          said: { ...first, result: 'short', faults: [], angleDegrees: 140, tool: 'eye' },
        },
      ],
    ]);
    expect(screen.queryByRole('form', { name: /^Correct/ })).toBeNull();
    expect(document.activeElement).toBe(
      screen.getByRole('button', { name: 'Correct Unloaded hinge' }),
    );
    expect(findings().textContent).toContain('Corrected. The outcome above is worked out anew.');
  });

  it('says at each field what contradicts itself, and loses nothing', async () => {
    const seat = await show(VISIT_STATES['visit-record']!);
    open('Unloaded hinge');
    tick('Held');
    choose('Angle, degrees', '12');
    await settle('Save the correction');
    expect(form().textContent).toContain('this is lost and not held');
    expect(form().textContent).toContain('from 20 to 200 degrees');
    expect(document.activeElement?.getAttribute('type')).toBe('checkbox');
    expect(screen.getByLabelText<HTMLInputElement>('Angle, degrees').value).toBe('12');
    expect(screen.getByLabelText<HTMLInputElement>('Held').checked).toBe(true);
    expect(await faultsOfPage()).toEqual([]);
    expect(seat.did).toEqual([]);
  });

  it('asks once more before pain is taken away, and the keyboard stands on keeping it', async () => {
    const seat = await show(VISIT_STATES['visit-record']!);
    open('Bell hinge');
    tick('Held');
    choose('Pain, 0 to 10', '');
    choose('Kind of pain', '');
    await settle('Save the correction');
    expect(form().textContent).toMatch(/takes pain away: it was pain \(pain 4 of 10, known\)/);
    expect(document.activeElement?.textContent).toBe('Keep the pain');
    expect(await faultsOfPage()).toEqual([]);
    await settle('Keep the pain');
    expect(seat.did).toEqual([]);
    await settle('Save the correction');
    await settle('It was heard wrongly');
    const { first, finding } = HURT;
    const held = { ...first, result: 'held', pain: null, painKind: null };
    expect(seat.did).toEqual([['correct', { finding, of: null, said: held }]]);
  });

  it('that cannot be kept says what to do, and what was chosen stays', async () => {
    await show(VISIT_STATES['visit-record']!, 'Free some space.');
    open('Unloaded hinge');
    tick('toes up');
    await settle('Save the correction');
    expect(screen.getByText('Free some space.').closest('[role=alert]')).toBeTruthy();
    expect(screen.getByLabelText<HTMLInputElement>('toes up').checked).toBe(true);
  });

  it('is left only after it was said that changes are lost', async () => {
    await show(VISIT_STATES['visit-record']!);
    open('Unloaded hinge');
    press('Cancel');
    open('Unloaded hinge');
    tick('toes up');
    press('Cancel');
    expect(form().textContent).toContain('not saved yet');
    press('Go on correcting');
    expect(screen.getByLabelText<HTMLInputElement>('toes up').checked).toBe(true);
    press('Cancel');
    press('Throw it away');
    expect(screen.queryByRole('form', { name: /^Correct/ })).toBeNull();
  });

  it('unchanged is no correction', async () => {
    const seat = await show(VISIT_STATES['visit-record']!);
    open('Unloaded hinge');
    await settle('Save the correction');
    expect(form().textContent).toContain('Nothing is changed yet.');
    expect(seat.did).toEqual([]);
  });

  it('shows what was said, struck, with what it was corrected to and when', async () => {
    await show(VISIT_STATES['visit-corrected']!);
    const history = screen.getByRole('list', { name: 'How it was corrected' });
    expect(history.textContent).toBe('lost (knees forward) corrected to short, on 2 March 2031');
    expect(history.querySelector('s')?.textContent).toBe('lost (knees forward)');
    expect(screen.getByRole('region', { name: 'Outcome' }).textContent).toContain(
      'Unloaded hinge: held by a correction alone. Test it again.',
    );
  });

  it('of both sides is corrected a side at a time, and keeps its side', async () => {
    const both = { ...LOST, of: 'left' as const, first: { ...LOST.first, side: 'left' as const } };
    await show(visitWith({ said: [both] }));
    open('Unloaded hinge, left');
    expect(within(form()).queryByRole('group', { name: 'Side' })).toBeNull();
  });

  it('cannot be, where it was cut off, until the visit is closed', async () => {
    const seat = await show(VISIT_STATES['visit-cut-off']!);
    expect(screen.queryByRole('button', { name: /^Correct/ })).toBeNull();
    await settle('Close this visit');
    expect(seat.did).toEqual([['close']]);
  });

  it('that was cut off can be gone on with from here, unless a squad day takes it up', async () => {
    const cutOff = VISIT_STATES['visit-cut-off']!;
    const { session } = (cutOff.visit as Extract<VisitState, { state: 'here' }>).head;
    const seat = await show(cutOff);
    await settle('Go on with this visit');
    expect(seat.did).toEqual([['goOn', session]]);
    const turn = { person: 'marn', session };
    const day = { now: null, waiting: [turn], later: [], seen: [] };
    const squadDay = { stage: 'kept' as const, day, asks: 'ready' as const, trouble: null };
    await show({ ...cutOff, squadDay });
    expect(screen.queryByRole('button', { name: 'Go on with this visit' })).toBeNull();
    expect(screen.getByText(/when its turn comes again on the squad day/)).toBeTruthy();
  });

  it('is no warning sign: that is only noted upon', async () => {
    await show(VISIT_STATES['visit-flagged']!);
    expect(findings().textContent).toContain('The warning sign cannot be corrected.');
  });

  it('is none of a rehearsal', async () => {
    await show(PEOPLE_STATES['visit']!);
    expect(screen.queryByRole('button', { name: /^Correct/ })).toBeNull();
    expect(screen.queryByRole('region', { name: 'Notes' })).toBeNull();
  });

  it('stands in the timeline after all else, and strikes what was heard', async () => {
    const to = { ...LOST.first, result: 'short' as const, faults: [] };
    const on = '2031-03-02T10:00:00+01:00';
    const heard = {
      ...{ id: 'm1', atSeconds: 67, type: 'heard' as const, prompt: 'check/hinge-unloaded' },
      ...{ text: 'knees came forward', verdict: 'accept' as const, understood: 'knees forward' },
      ...{ isTakenBack: false, corrected: [{ to, on }] },
    };
    const after = { id: 'm2', atSeconds: 90_000, type: 'corrected' as const };
    const stands = { id: 'm3', atSeconds: 90_000, type: 'stands' as const, area: 'hinge' as const };
    await show(
      visitWith(
        {},
        {
          moments: [
            heard,
            { ...after, prompt: 'check/hinge-unloaded', to, on },
            { ...stands, before: 'ready', now: 'working' },
          ],
        },
      ),
    );
    const timeline = screen.getByRole('region', { name: 'What was heard and decided' });
    const texts = within(timeline)
      .getAllByRole('listitem')
      .map(({ textContent }) => textContent.replace(/\s+/g, ' ').trim());
    expect(texts[0]).toMatch(/“knees came forward”.*Corrected to short, on 2 March 2031$/);
    expect(timeline.querySelector('s')?.textContent).toBe('“knees came forward”');
    expect(texts[1]).toMatch(/^After Unloaded hinge: short.*by hand on 2 March 2031$/);
    expect(texts[2]).toMatch(/^AfterHinge was ready to be taught, is working now\./);
  });
});

describe('notes on a visit', () => {
  const field = () => screen.getByRole<HTMLTextAreaElement>('textbox', { name: 'Add a note' });
  const write = (text: string) => fireEvent.change(field(), { target: { value: text } });

  it('are listed with their moment, added, and the field is empty again', async () => {
    const seat = await show(VISIT_STATES['visit-noted']!);
    const notes = screen.getByRole('region', { name: 'Notes' });
    const listed = within(notes).getAllByRole('listitem');
    expect(listed.map(({ textContent }) => textContent)).toEqual([
      '1 March 2031, 10:05Slept badly.Delete',
      '1 March 2031, 10:05Left heel.Delete',
    ]);
    write('Look at the wrist.');
    await settle('Keep the note');
    expect(seat.did).toEqual([['addNote', 'Look at the wrist.']]);
    expect(field().value).toBe('');
  });

  it('say how many letters are left near the limit, and keep none too long', async () => {
    const seat = await show(VISIT_STATES['visit-record']!);
    write('x'.repeat(1799));
    expect(screen.queryByText(/letters left/)).toBeNull();
    write('x'.repeat(1990));
    expect(screen.getByText('10 letters left.')).toBeTruthy();
    write('x'.repeat(2003));
    expect(screen.getByText('3 letters too many.')).toBeTruthy();
    await settle('Keep the note');
    expect(screen.getByText(/2003 letters; at most 2000/)).toBeTruthy();
    expect(seat.did).toEqual([]);
    write('');
  });

  it('that cannot be kept stay in the field, also while another page is looked at', async () => {
    const seat = await show(VISIT_STATES['visit-record']!, 'Free some space.');
    write('Look at the wrist.');
    await settle('Keep the note');
    expect(screen.getByText('Free some space.').closest('[role=alert]')).toBeTruthy();
    act(() => seat.patch({ where: 'athlete' }));
    await screen.findByRole('region', { name: 'Visits' });
    act(() => seat.patch({ where: 'visit' }));
    await screen.findByRole('region', { name: 'Notes' });
    expect(field().value).toBe('Look at the wrist.');
    write('');
  });

  it('are deleted once it was asked', async () => {
    const seat = await show(VISIT_STATES['visit-noted']!);
    fireEvent.click(screen.getAllByRole('button', { name: /^Delete the note/ })[0]!);
    expect(seat.did).toEqual([]);
    expect(document.activeElement?.textContent).toBe('Keep it');
    await settle('Delete the note');
    expect(seat.did).toEqual([['removeNote', 'n1']]);
  });

  it('that cannot be read say so and hide nothing else', async () => {
    await show(VISIT_STATES['visit-notes-unread']!);
    expect(screen.getByText(/notes on this device cannot be read/)).toBeTruthy();
    expect(screen.getByRole('region', { name: 'Outcome' })).toBeTruthy();
  });

  it('show the last one on the page of the athlete, beside the visits', async () => {
    await show(PEOPLE_STATES['athlete']!);
    const visits = screen.getByRole('region', { name: 'Visits' });
    expect(await within(visits).findByText(/Slept badly/)).toBeTruthy();
    expect(visits.textContent).toContain('Last note, 1 March 2031, 09:40');
  });
});

it.each(Object.keys(VISIT_STATES))(
  '%s has nothing that axe objects to, all unfolded',
  async (name) => {
    document.documentElement.lang = 'en';
    document.title = 'Sayso';
    await show(VISIT_STATES[name]!);
    expect(await faultsOfPage()).toEqual([]);
  },
);

describe('the readiness sheet', () => {
  it('is saved in the form, and with the name and notes, that were chosen', async () => {
    const seat = await show(VISIT_STATES['visit-record']!);
    tick('For a clinic (FHIR R4)');
    tick('No name');
    tick('With the notes');
    await settle('Save the sheet');
    expect(seat.did).toEqual([['saveSheet', { as: 'fhir', nameAs: 'none', hasNotes: true }]]);
    expect(screen.getByText(/^Saved\./)).toBeTruthy();
  });

  it('goes by initials where nothing was chosen, and says where it could not be written', async () => {
    const seat = await show(VISIT_STATES['visit-record']!);
    seat.visits.saveSheet = async ({ nameAs }) => `Not written by ${nameAs}.`;
    await settle('Save the sheet');
    expect(screen.getByText(/Not written by initials\./)).toBeTruthy();
    expect(screen.queryByText(/^Saved\./)).toBeNull();
  });
});
