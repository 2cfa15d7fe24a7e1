import { describe, expect, it } from 'vitest';
import { ASK_AGAIN_SECONDS, WAIT_FROM_SECONDS } from '../../src/session/questionMachine';
import { textOf } from '../../src/domain/script';
import { book, run, sessionOf, type Session } from './sessions';

/** What was said from the moment that a coach's words were heard. */
const cuesAfter = ({ timeline }: Session, words: string): string[] => {
  const from = timeline.findIndex((event) => event.type === 'heard' && event.text === words);
  expect(from, `"${words}" was heard`).toBeGreaterThanOrEqual(0);
  return timeline.slice(from).flatMap((event) => (event.type === 'cue' ? [event.text] : []));
};

const drills = ({ steps }: Session): string[] =>
  steps.filter((id, index) => book.drills[id] !== undefined && id !== steps[index - 1]);

const outcomes = ({ end }: Session) =>
  Object.fromEntries(end.areas.map(({ area, outcome, rung }) => [area, [outcome, rung]]));

describe('all ready', () => {
  const session = sessionOf('all-ready');

  it('asks every check once, in order, and no drill', () => {
    expect(session.steps).toEqual([
      'overhead-passive',
      'overhead-passive',
      'overhead-active-lying',
      'overhead-active-standing',
      'squat-bodyweight',
      'squat-front-rack',
      'hinge-unloaded',
      'hinge-bar',
    ]);
    expect(session.end.findings.every(({ result }) => result === 'held')).toBe(true);
  });

  it('takes less than nine minutes, and every lift may be taught', () => {
    expect(session.end.atSeconds).toBeLessThan(9 * 60);
    expect(session.end.reason).toBe('completed');
    expect(session.end.liftsReady).toEqual([
      'pulls',
      'front-squat',
      'clean',
      'press',
      'jerk',
      'snatch',
      'overhead-squat',
    ]);
  });
});

describe('short on one side', () => {
  const session = sessionOf('short-on-one-side');

  it('keeps both angles, climbs from the first rung to the last, and tests both sides again', () => {
    const passive = session.all('finding').filter(({ prompt }) => prompt.endsWith('passive'));
    expect(passive.map(({ side, result, angleDegrees }) => [side, result, angleDegrees])).toEqual([
      ['left', 'held', 160],
      ['right', 'short', 140],
      ['left', 'held', 160],
      ['right', 'held', 158],
    ]);
    expect(drills(session)).toEqual(book.ladders.overhead?.rungs.map(({ drill }) => drill));
  });

  it('a slip gets one fix, in the words of its drill', () => {
    const [fix] = book.drills['lying-pullover']!.fixes.filter(
      ({ fault }) => fault === 'ribs-flared',
    );
    expect(session.cues.filter((cue) => cue === fix?.cue)).toHaveLength(1);
    expect(cuesAfter(session, 'ribs flared a bit at the end')).toContain(fix?.cue);
  });

  it('is ready once what failed holds', () => {
    expect(outcomes(session)).toEqual({ overhead: ['ready', 5] });
    expect(session.end.liftsReady).toEqual(['press']);
  });
});

describe('position given up', () => {
  it('overhead: the ladder begins at rung 4, and a retest that is lost keeps the area working', () => {
    const session = sessionOf('overhead-given-up');
    expect(drills(session)).toEqual(['half-kneeling-press', 'standing-press']);
    expect(cuesAfter(session, 'same on the right')[0]).toMatch(/^Right.*\?$/);
    expect(outcomes(session)).toEqual({ overhead: ['working', 5] });
    expect(session.end.liftsReady).toEqual([]);
  });

  it('squat: fix, made easier, back a rung, then up to the last and tested again', () => {
    const session = sessionOf('squat-given-up');
    expect(session.rules.slice(2, 5)).toEqual(['3.1', '3.3', '3.4']);
    expect(drills(session)).toEqual([
      'plate-reach-squat',
      'cable-squat',
      'plate-reach-squat',
      'goblet-squat',
      'front-squat',
    ]);
    // The loaded check waited until the unloaded one held.
    expect(session.steps.slice(-2)).toEqual(['squat-bodyweight', 'squat-front-rack']);
    expect(session.rules).toContain('5.2');
    expect(outcomes(session)).toEqual({ squat: ['ready', 4] });
  });

  it('hinge: what fails again after the step back ends the ladder, and the rung held is homework', () => {
    const session = sessionOf('hinge-given-up');
    expect(drills(session)).toEqual(['bench-hinge', 'bell-hinge', 'bench-hinge', 'bell-hinge']);
    expect(session.rules).toContain('4.1');
    expect(session.steps).not.toContain('hinge-bar');
    expect(outcomes(session)).toEqual({ hinge: ['working', 1] });
  });
});

it('a fault under the bar alone starts at rung 3 and is tested again with the bar', () => {
  const session = sessionOf('under-the-bar');
  expect(drills(session)).toEqual(['romanian-deadlift', 'deadlift']);
  expect(session.steps.at(-1)).toBe('hinge-bar');
  expect(session.end.findings[0]?.result).toBe('held');
  expect(outcomes(session)).toEqual({ hinge: ['ready', 4] });
});

describe('three areas', () => {
  const session = sessionOf('three-areas');
  const areaOf = (id: string) => (book.checks[id] ?? book.drills[id])?.area;

  it('asks all checks first, then the ladders, then the retests, area by area', () => {
    const order = session.steps
      .map((id) => `${book.drills[id] ? 'ladder' : 'check'} ${areaOf(id)}`)
      .filter((what, index, all) => what !== all[index - 1]);
    expect(order).toEqual([
      'check overhead',
      'check squat',
      'check hinge',
      'ladder overhead',
      'ladder squat',
      'ladder hinge',
      'check overhead',
      'check squat',
      'check hinge',
    ]);
  });

  it('ends the ladder of the squat at twelve sets', () => {
    const sets = session.steps.filter((id) => book.drills[id]?.area === 'squat');
    expect(sets).toHaveLength(12);
    expect(session.rules).toContain('6.2');
  });

  it('asks no loaded check of an area whose unloaded check failed', () => {
    expect(session.steps).not.toContain('squat-front-rack');
    expect(session.steps).not.toContain('hinge-bar');
  });

  it('comes to one area ready and two working, and only the press may be taught', () => {
    expect(outcomes(session)).toEqual({
      overhead: ['ready', 5],
      squat: ['working', 3],
      hinge: ['working', 1],
    });
    expect(session.end.liftsReady).toEqual(['press']);
  });
});

describe('pain', () => {
  it('a known two: the kind is asked, the result stands, and it goes on loaded', () => {
    const session = sessionOf('pain-2');
    expect(session.all('listen').map(({ prompt }) => prompt)).toContain('pain/kind');
    expect(session.end.findings[1]).toMatchObject({ result: 'held', pain: 2 });
    expect(drills(session)).toEqual(['bell-hinge', 'romanian-deadlift', 'deadlift']);
    expect(outcomes(session)).toEqual({ hinge: ['ready', 4] });
  });

  it('a known four: back a rung, nothing loaded after it, so never ready', () => {
    const session = sessionOf('pain-4');
    expect(session.rules).toEqual(expect.arrayContaining(['1.1', '1.2', '1.6']));
    expect(session.steps.slice(-3)).toEqual(['cable-squat', 'cable-squat', 'squat-bodyweight']);
    expect(session.end.findings[2]).toMatchObject({ result: 'pain', pain: 4 });
    expect(outcomes(session).squat?.[0]).toBe('working');
  });

  it('a seven: the squat is referred and said so, its kind is not asked, nothing is loaded', () => {
    const session = sessionOf('pain-7');
    const prompts = session.all('listen').map(({ prompt }) => prompt);
    expect(prompts).toContain('pain/how-much');
    expect(prompts).not.toContain('pain/kind');
    const after = cuesAfter(session, 'seven').slice(0, 3).join(' ');
    expect(after).toMatch(/squat/);
    expect(after).toMatch(/licensed professional/);
    expect(outcomes(session).squat?.[0]).toBe('referred');
    const later = session.steps.slice(session.steps.lastIndexOf('plate-reach-squat') + 1);
    expect(later).toEqual(['bench-hinge', 'bench-hinge', 'hinge-unloaded']);
  });

  it('sharp pain ends its drill for good, and nothing is loaded after it', () => {
    const session = sessionOf('pain-sharp');
    expect(session.rules).toContain('1.5');
    expect(session.steps.filter((id) => id === 'bell-hinge')).toHaveLength(1);
    expect(session.steps.slice(2)).toEqual(['bench-hinge', 'bench-hinge', 'hinge-unloaded']);
    expect(outcomes(session).hinge?.[0]).not.toBe('ready');
  });

  it('sharp pain leaves half a minute to look at it before the next set-up', () => {
    const { said } = sessionOf('pain-sharp');
    const at = said.findIndex(({ text }) => text === book.lines['say.look-first']);
    const [line, next] = said.slice(at);
    expect((next?.fromSeconds ?? 0) - (line?.toSeconds ?? 0)).toBeGreaterThan(30);
  });
});

/** The first cues that are longer than a word, each with a second in the middle of it. */
const middles = (session: Session, count: number) =>
  session.said
    .filter(({ toSeconds, fromSeconds }) => toSeconds - fromSeconds > 1.5)
    .slice(0, count)
    .map(({ text, fromSeconds, toSeconds }) => ({
      text,
      atSeconds: (fromSeconds + toSeconds) / 2 - 0.35,
    }));

describe('a warning sign', () => {
  const session = sessionOf('red-flag');

  it('during the work asks nothing, refers the area at hand and ends', () => {
    const [heard] = session.all('heard').slice(-1);
    expect(session.all('listen')).toHaveLength(2);
    expect(session.all('tone').some(({ atSeconds }) => atSeconds > heard!.atSeconds)).toBe(false);
    expect(session.rules.at(-1)).toBe('7.4');
    expect(session.end.reason).toBe('red-flag');
    expect(outcomes(session).overhead?.[0]).toBe('referred');
    expect(session.end.liftsReady).toEqual([]);
  });

  it('says to get help before anything else', () => {
    expect(cuesAfter(session, 'I feel dizzy')[0]).toMatch(/[Gg]et help/);
  });

  it.each(middles(sessionOf('all-ready'), 12))('cuts off "$text" and ends', ({ atSeconds }) => {
    const cut = run('all-ready', { text: 'dizzy', atSeconds });
    const [heard] = cut.all('heard').slice(-1);
    expect(cut.said.filter(({ isCutOff }) => isCutOff)).toMatchObject([
      { toSeconds: heard?.atSeconds },
    ]);
    expect(cut.end.reason).toBe('red-flag');
  });
});

describe('stop', () => {
  const session = sessionOf('stopped');

  it('no: the same question is open again, and its answer counts', () => {
    const prompts = session.all('listen').map(({ prompt }) => prompt);
    expect(prompts).toEqual([
      'check/overhead-passive',
      'confirm',
      'check/overhead-passive',
      'confirm',
    ]);
    expect(session.end.findings).toMatchObject([{ side: 'left', result: 'held' }]);
  });

  it('again, during the work: only a yes ends', () => {
    expect(session.all('tone').filter(({ name }) => name === 'halted')).toHaveLength(2);
    expect(session.rules.slice(-2)).toEqual(['7.1', '7.3']);
    expect(session.end.reason).toBe('stopped');
  });

  it.each(middles(sessionOf('all-ready'), 12))('cuts off "$text" and asks', ({ atSeconds }) => {
    const cut = run('all-ready', { text: 'stop', atSeconds });
    const [stop] = cut.all('heard').filter(({ text }) => text === 'stop');
    expect(cut.said.find(({ isCutOff }) => isCutOff)).toMatchObject({
      toSeconds: stop?.atSeconds,
    });
    const [question] = cut.all('listen').filter(({ atSeconds: at }) => at >= stop!.atSeconds);
    expect(question?.prompt).toBe('confirm');
  });
});

it('silence: no finding at all; asked again after 8 and 16 s; from 30 s it waits and says so once', () => {
  const session = sessionOf('silence');
  expect(session.end.findings).toEqual([]);
  expect(session.all('finding')).toEqual([]);
  const [opened] = session.all('listen');
  const { ask } = book.checks['overhead-passive']!;
  const after = session
    .all('cue')
    .filter(({ atSeconds }) => atSeconds > opened!.atSeconds)
    .map(({ text, atSeconds }) => [text, Math.round((atSeconds - opened!.atSeconds) * 10) / 10]);
  expect(after).toEqual([
    ...ASK_AGAIN_SECONDS.map((seconds) => [ask, seconds]),
    [book.lines['say.waiting'], WAIT_FROM_SECONDS],
  ]);
  expect(ASK_AGAIN_SECONDS).toEqual([8, 16]);
  expect(WAIT_FROM_SECONDS).toBe(30);
  expect(session.end.reason).toBe('replies-ended');
});

describe('the coach overrules', () => {
  const session = sessionOf('overruled');

  it('in every way: another try, lighter, back, by name, another set, next and skip', () => {
    const overrules = session.entries.flatMap((entry) =>
      entry.type === 'overrule' ? [entry.command] : [],
    );
    expect(overrules).toEqual([
      'again',
      'lighter',
      'back',
      'go-to',
      'go-to',
      'again',
      'next',
      'skip',
    ]);
  });

  it('and the record says who decided', () => {
    const decided = session.entries.filter((entry) => entry.type === 'decision');
    for (const { rule, by } of decided) expect(by).toBe(rule.startsWith('9.') ? 'coach' : 'rules');
    expect(decided.filter(({ by }) => by === 'coach')).toHaveLength(8);
  });

  it('what is not on this ladder is refused with its reason; what was skipped makes nothing ready', () => {
    expect(session.rules).toContain('9.8');
    const refused = cuesAfter(session, 'go to the deadlift');
    expect(refused[0]).toMatch(/deadlift/);
    // The set was done: it is asked about again, not done again.
    expect(refused[1]).toBe(book.drills['plate-reach-squat']?.ask);
    expect(session.steps).not.toContain('deadlift');
    expect(outcomes(session).squat?.[0]).not.toBe('ready');
  });
});

describe('many undos', () => {
  const session = sessionOf('undone');

  it('leave the findings of the session without a slip', () => {
    expect(session.entries.filter(({ type }) => type === 'undone').length).toBeGreaterThanOrEqual(
      6,
    );
    expect(session.end.findings).toEqual(sessionOf('undone-not').end.findings);
    expect(outcomes(session)).toEqual(outcomes(sessionOf('undone-not')));
  });

  it('keep every slip on record, and say when there is nothing to take back', () => {
    const findings = session.entries.filter(({ type }) => type === 'finding');
    expect(findings.length).toBeGreaterThanOrEqual(8);
    expect(cuesAfter(session, 'take that back')[0]).toBe(book.lines['say.nothing-to-undo']);
  });
});

describe('few words', () => {
  const setUps = [...Object.values(book.checks), ...Object.values(book.drills)].flatMap(
    ({ setUp, setUpAgain }) => [...setUp, ...setUpAgain].map(textOf),
  );
  const whys = Object.entries(book.lines).flatMap(([key, text]) =>
    key.startsWith('because.') && !text.includes('{') ? [text] : [],
  );

  it('in tones says no set-up and no why, but cautions, pain, offers and what comes next', () => {
    const session = sessionOf('overhead-in-tones');
    const { cues } = session;
    expect(cues.filter((cue) => [...setUps, ...whys].includes(cue))).toEqual([]);
    expect(cues).toContain('Left, ribs, not a pass?');
    expect(cues).toContain(book.lines['ask.pain-number']);
    expect(cuesAfter(session, 'that one is known').join(' ')).toMatch(/That may go on/);
    for (const id of ['overhead-passive', ...drills(session)]) {
      const script = book.checks[id] ?? book.drills[id];
      expect(cues.filter((cue) => cue === script?.caution)).toHaveLength(1);
      expect(cues.join(' ').toLowerCase()).toContain(script?.name);
    }
  });

  it('by voice: all words, the usual ones, then tones, each from the next step on', () => {
    const session = sessionOf('words-by-voice');
    const said = (from: string, to: string) => {
      const after = cuesAfter(session, from);
      return after.slice(0, after.length - cuesAfter(session, to).length);
    };
    const [bench, bell] = [book.drills['bench-hinge'], book.drills['bell-hinge']];
    const again = (bench?.setUpAgain ?? []).map(textOf);
    expect(said('her back rounded', 'fewer words')).toEqual(expect.arrayContaining(again));
    const later = cuesAfter(session, 'knees came forward');
    expect(later).toContain('Set two.');
    expect(later.filter((cue) => (bell?.setUpAgain ?? []).map(textOf).includes(cue))).toEqual([]);
    const last = cuesAfter(session, 'back rounded');
    expect(last.filter((cue) => setUps.includes(cue) || cue === 'Set two.')).toEqual([]);
  });
});

describe('what contradicts itself', () => {
  const session = sessionOf('contradictions');

  it.each([
    ['pass, but the ribs flared', 'lost'],
    ['left was a pass', 'held'],
    ['one fifty, pass', 'held'],
    ['pass at one forty five', 'held'],
    ['limited at two hundred and fifty degrees', 'short'],
  ])('"%s" is asked about, and nothing is taken before', (words, result) => {
    const from = session.timeline.findIndex(
      (event) => event.type === 'heard' && event.text === words,
    );
    expect(session.timeline[from]).toMatchObject({ verdict: 'confirm' });
    const after = session.timeline.slice(from);
    const asked = after.findIndex(({ type }) => type === 'listen');
    expect(after[asked]).toMatchObject({ prompt: 'confirm' });
    expect(after.slice(0, asked).some(({ type }) => type === 'finding')).toBe(false);
    expect(after.find(({ type }) => type === 'finding')).toMatchObject({ result });
  });

  it('keeps what was settled', () => {
    const kept = session.end.findings.map(({ result, angleDegrees }) => [result, angleDegrees]);
    expect(kept).toEqual([
      ['lost', null],
      ['held', 150],
      ['held', 160],
      ['short', 150],
    ]);
  });
});

it('a coach who talks: nothing said to the athlete or in praise is taken', () => {
  const session = sessionOf('talkative');
  const heard = session.all('heard');
  const talk = heard.filter(({ verdict }) => verdict === 'ignore');
  expect(talk.length).toBeGreaterThanOrEqual(10);
  expect(heard.filter(({ verdict }) => verdict !== 'ignore')).toHaveLength(4);
  expect(session.end.findings.map(({ result }) => result)).toEqual(Array(4).fill('held'));
  // Talk cuts no cue off.
  expect(session.said.filter(({ isCutOff }) => isCutOff)).toEqual([]);
  expect(session.steps).toHaveLength(4);
});
