import { describe, expect, it } from 'vitest';
import { EMPTY_VIEW, type Told } from '../../../src/screens/view';
import { browser, settle } from './browser';

const STEP: Told<'step'> = {
  ...{ type: 'step', prompt: 'check/hinge-bar', side: null },
  ...{ set: null, of: null, rung: null },
};

/** Two tabs, of which the first runs a session. */
async function two(options: Parameters<typeof browser>[0] = {}) {
  const { clock, openTab } = browser(options);
  const one = openTab();
  const other = openTab();
  const beginning = one.begin('mon');
  await settle();
  clock.pass(1000);
  await beginning;
  await settle();
  return { clock, openTab, one, other };
}

describe.each([
  ['with locks', 'locks'],
  ['without locks', 'none'],
  ['that refuses its locks', 'refused'],
] as const)('two tabs of a browser %s', (_, has) => {
  it('one runs the session, the other shows what is said and heard there', async () => {
    const { one, other } = await two({ has });
    expect(one.runs()).toBe('mon');
    const cue = { text: 'How was it?', endsAtSeconds: 9 };
    one.store.patch({ view: { ...EMPTY_VIEW, step: STEP, phase: 'listening', cue } });
    await settle();
    expect(other.elsewhere()).toMatchObject({
      ...{ session: 'mon', routine: 'hinge', cue: 'How was it?', phase: 'listening' },
      step: { prompt: 'check/hinge-bar' },
    });
    expect(one.elsewhere()).toBeNull();
  });

  it('one that is opened later shows it too', async () => {
    const { openTab } = await two({ has });
    const late = openTab();
    await settle();
    expect(late.elsewhere()?.session).toBe('mon');
  });

  it('none but the first begins one, and it is said why', async () => {
    const { other } = await two({ has });
    await other.begin('tue');
    expect(other.runs()).toBeNull();
    expect(other.store.state().where).toBe('people');
    expect(other.elsewhere()?.trouble).toMatch(/another tab.*Go on with it here/);
    let ran = false;
    other.place.unlessElsewhere(() => {
      ran = true;
    });
    expect(ran).toBe(false);
  });

  it('"stop" in one that follows stops it', async () => {
    const { one, other } = await two({ has });
    other.place.stop();
    await settle();
    expect(one.did).toContain('stopped');
  });

  it('the session is handed over: stored, let go, and gone on with', async () => {
    const { clock, one, other } = await two({ has });
    other.place.goOnHere();
    await settle();
    clock.pass(1000);
    await settle();
    expect([one.runs(), other.runs()]).toEqual([null, 'mon']);
    expect(other.did).toContain('tapped');
    expect(one.elsewhere()?.session).toBe('mon');
    expect(other.elsewhere()).toBeNull();
    // And back again.
    one.place.goOnHere();
    await settle();
    clock.pass(1000);
    await settle();
    expect([one.runs(), other.runs()]).toEqual(['mon', null]);
  });

  it('what is not on record yet is not handed over, and it is said why', async () => {
    const { one, other } = await two({ has });
    one.keep('The device is full.');
    other.place.goOnHere();
    await settle();
    expect([one.runs(), other.runs()]).toEqual(['mon', null]);
    expect(other.elsewhere()).toMatchObject({ trouble: 'The device is full.', isAsked: false });
  });

  it('one of a squad day, or a rehearsal, stays where it was begun', async () => {
    const { clock, openTab } = browser({ has });
    const [one, other] = [openTab(), openTab()];
    const beginning = one.begin('day', false);
    await settle();
    clock.pass(1000);
    await beginning;
    await settle();
    expect(other.elsewhere()?.mayGoOnHere).toBe(false);
    other.place.goOnHere();
    await settle();
    expect(one.runs()).toBe('day');
    expect(other.elsewhere()?.trouble).toMatch(/tab where it was begun/);
  });

  it('once it has ended the other may begin', async () => {
    const { clock, one, other } = await two({ has });
    one.end();
    await settle();
    expect(other.elsewhere()).toBeNull();
    expect(other.did.at(-1)).toBe('changed null');
    const beginning = other.begin('tue');
    await settle();
    clock.pass(1000);
    await beginning;
    expect(other.runs()).toBe('tue');
  });

  it('where its tab is killed the other is told which session was cut off, and may go on', async () => {
    const { clock, one, other } = await two({ has });
    one.kill();
    for (let looks = 0; looks < 3; looks += 1) {
      await settle();
      clock.pass(6000);
    }
    await settle();
    expect(other.elsewhere()).toBeNull();
    expect(other.did.at(-1)).toBe('changed mon');
    const beginning = other.begin('mon');
    await settle();
    clock.pass(1000);
    await beginning;
    expect(other.runs()).toBe('mon');
  });

  it('a tab that does not answer loses the session, and yields when it wakes', async () => {
    const { clock, one, other } = await two({ has });
    one.freeze(true);
    other.place.goOnHere();
    await settle();
    clock.pass(6000);
    await settle();
    clock.pass(1000);
    await settle();
    expect(other.runs()).toBe('mon');
    one.freeze(false);
    other.store.patch({ view: { ...EMPTY_VIEW, phase: 'asking' } });
    await settle();
    expect(one.runs()).toBeNull();
    expect(one.did).toContain('yielded');
    expect(one.elsewhere()?.session).toBe('mon');
    // What it still holds is not what is on record, so it does not take it back as it is.
    one.place.goOnHere();
    await settle();
    expect(one.elsewhere()?.trouble).toMatch(/Load this page anew/);
    expect(other.runs()).toBe('mon');
  });
});
