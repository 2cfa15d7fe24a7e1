import { expect, test } from 'vitest';
import { randomFrom } from '../ear/noises';
import { fit, judged, report, type Clip, type Look } from './fitting';

const look = (evidence: Look['evidence'], right: boolean, text = 'pass'): Look => ({
  ...{ text, right, otherRight: false, evidence },
});

/** Replies that fit and talk that fits less, as a head would judge them; the two overlap. */
function clips(): Clip[] {
  const random = randomFrom(5);
  return Array.from({ length: 600 }, (_, index) => {
    const isReply = index % 2 === 0;
    const evidence = {
      fitPerPhone: isReply ? -random() : -0.1 - 3 * random(),
      surePerPhone: isReply ? -random() : -0.1 - 3 * random(),
      phones: 2 + Math.floor(random() * 10),
      lead: random() * (isReply ? 12 : 6),
    };
    const common = { kept: false, speaker: 'somebody', noise: 'pink', decibels: 10, seconds: 1 };
    const clip = { index, prompt: 'check/hinge-bar', text: 'pass', ...common };
    return { ...clip, kind: isReply ? 'reply' : 'talk', heard: [[look(evidence, isReply)]] };
  });
}

test('the fitted curve acts on replies and on one in a hundred of what is none, each time the same', () => {
  const heard = clips();
  const belief = fit(heard, 0);
  const acted = (kind: Clip['kind']) =>
    heard.filter((clip) => clip.kind === kind && judged(clip, 0, belief).verdict === 'act').length;
  expect(acted('talk')).toBeLessThanOrEqual(3);
  expect(acted('reply')).toBeGreaterThan(100);
  expect(fit(clips(), 0)).toEqual(belief);
});

test('a clip is judged by the better of two looks only where the first leaves doubt', () => {
  const [clip] = clips();
  const weights = { fitPerPhone: 1.5, surePerPhone: 2, phones: 0.5, unexplained: 0.3, lead: 1.3 };
  const belief = { offset: -3, ...weights };
  const sure = look({ fitPerPhone: 0, surePerPhone: 0, phones: 9, lead: 20 }, true);
  const doubtful = look(
    { fitPerPhone: -0.5, surePerPhone: -0.5, phones: 5, lead: 2 },
    false,
    'lost',
  );
  const hopeless = look({ fitPerPhone: -6, surePerPhone: -4, phones: 2, lead: 0 }, false, 'lost');
  const of = (...looks: Look[]) => judged({ ...(clip as Clip), heard: [looks] }, 0, belief);
  expect(of(doubtful, sure)).toMatchObject({ verdict: 'act', look: { text: 'pass' } });
  expect(of(hopeless, sure).verdict).toBe('ignore');
});

test('what a report counts as talk is counted apart at idle', () => {
  const belief = fit(clips(), 0);
  const text = report(clips(), 0, () => belief);
  expect(text).toContain('talk at a question, 300');
  expect(text).toContain('talk at idle, 0');
});
