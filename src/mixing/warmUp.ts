/** What sounds of a warm-up, for a sound file. */
import type { Heard, WarmUpPlan } from '../domain/warmUp/planning';
import type { Manner } from '../voice/manner';
import type { ToMix } from './soundFile';
import type { Said } from './spoken';

/** A file is as loud as it can be: the speaker has a knob. */
const LOUD = { volume: 1 };

/**
 * Its cues at the pace that the plan was made for, its counts at their own pace; `secondsOf`: how
 * long a count takes.
 */
export function warmUpToMix(
  { heard, totalSeconds }: Pick<WarmUpPlan, 'heard' | 'totalSeconds'>,
  secondsOf: (text: string) => number,
  stretch: number,
): ToMix {
  const cues: Manner = { stretch, ...LOUD };
  const counts: Manner = { stretch: 1, ...LOUD };
  const said = heard.flatMap((one): Said[] => {
    if (one.do === 'tone' || one.text === null) return [];
    const isCount = one.do === 'beat';
    const seconds = isCount ? secondsOf(one.text) : one.seconds;
    return [
      {
        ...{ text: one.text, fromSeconds: one.atSeconds, toSeconds: one.atSeconds + seconds },
        ...{ isCutOff: false, manner: isCount ? counts : cues, ...(isCount && { isCount }) },
      },
    ];
  });
  return { said, tones: heard.flatMap(toneOf), seconds: totalSeconds };
}

const toneOf = (one: Heard): ToMix['tones'] => {
  if (one.do === 'tone') return [{ name: one.name, atSeconds: one.atSeconds }];
  return one.do === 'beat' && one.text === null
    ? [{ name: 'countdown', atSeconds: one.atSeconds }]
    : [];
};
