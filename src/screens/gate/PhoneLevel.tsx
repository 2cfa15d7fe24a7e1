import type { LevelOn } from '../../ports';
import { OneOf } from '../forms/OneOf';
import type { LevelState } from '../level/state';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';

const ON = ['off', 'shin', 'upper-arm'] as const;

const ON_WORDS: Record<(typeof ON)[number], string> = {
  off: 'Off',
  shin: 'On the shin',
  'upper-arm': 'On an upper arm',
};

const STEP_WORDS: Record<LevelOn, { strap: string; first: string; second: string }> = {
  shin: {
    strap: 'Strap it along the shin, its long edge upright.',
    first: 'Step 1 of 2: rest the shin on a post, and do not move until the tone.',
    second: 'Step 2 of 2: turn round, lay the calf on the same post, and do not move.',
  },
  'upper-arm': {
    strap: 'Strap it along the upper arm, its long edge upright.',
    first: 'Step 1 of 2: let the arm hang with its back against a post, and do not move.',
    second: 'Step 2 of 2: turn round, its front against the same post, and do not move.',
  },
};

const TROUBLE_WORDS: Record<NonNullable<LevelState['trouble']>, string> = {
  insecure: 'Browsers tell motion on a secure page alone: the address must begin with https.',
  denied:
    'Motion is not allowed for this page. Allow it in the browser’s settings, then try again.',
  'no-sensor': 'This device tells no motion. Everything else works without it.',
  'dropped-out': 'The sensor fell silent. Set it anew.',
  'off-scale': 'The sensor tells no true gravity, so it cannot be used. Set it anew, or leave it.',
  across: 'The phone was not upright. Strap it along the limb, and set it anew.',
  slipped: 'The two steps do not fit each other. Tighten the strap, and set it anew.',
};

const SUMMARY_WORDS: Record<LevelState['stage'], string> = {
  off: 'off',
  opening: 'asking',
  ready: 'not set yet',
  first: 'step 1 of 2',
  turning: 'step 2 of 2',
  second: 'step 2 of 2',
  set: 'set',
};

/** A phone strapped to a limb, off at first: what it tells, and the two steps that set it. */
export function PhoneLevel({ seat }: { seat: Seat }) {
  const level = useSeat(seat, (state) => state.level);
  const { on, stage, trouble } = level;
  return (
    <details className="card sound" open={trouble !== null || undefined}>
      <summary>
        Phone as a level <span className="not-here-count">{SUMMARY_WORDS[stage]}</span>
      </summary>
      <section>
        <p>
          On the shin it tells whether that is upright within 10° as the load passes the knee; on an
          upper arm, its angle in the standing reach. It only supports the answer: a yes decides,
          and within 5° of a line it does not judge.
        </p>
        <OneOf
          options={ON}
          chosen={on ?? 'off'}
          onChange={(to) => seat.level.choose(to === 'off' ? null : to)}
          words={(to) => ON_WORDS[to]}
        />
        <p role="status">{statusOf(level)}</p>
        {trouble !== null && (
          <p role="alert">
            <Shape name="notice" /> {TROUBLE_WORDS[trouble]}
          </p>
        )}
        {(stage === 'ready' || stage === 'set') && (
          <button type="button" onClick={() => seat.level.set()}>
            {stage === 'set' ? 'Set it anew' : 'Set it in two steps'}
          </button>
        )}
        {isStep(stage) && (
          <button type="button" onClick={() => seat.level.take()}>
            It lies as it should: take it now
          </button>
        )}
      </section>
    </details>
  );
}

const isStep = (stage: LevelState['stage']): stage is 'first' | 'turning' | 'second' =>
  stage === 'first' || stage === 'turning' || stage === 'second';

/** What is to be done now. */
function statusOf({ on, stage }: LevelState): string {
  if (on === null) return '';
  const { strap, first, second } = STEP_WORDS[on];
  if (stage === 'opening') return 'Asking the browser for the sensor…';
  if (stage === 'ready') return `${strap} Each step is taken by holding still, or by “ready”.`;
  if (stage === 'first') return first;
  if (stage === 'set') return 'Set for the next session. Leave it where it is strapped.';
  return isStep(stage) ? second : '';
}
