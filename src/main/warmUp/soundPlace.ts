import type { SoundHands, WarmUpState } from '../../screens/warmUp/state';
import { download } from '../download';
import type { Parts } from '../parts';
import { NOT_ARRIVED } from './ownPlace';

const loadSaving = () => import('./saveSound');

/** Saves a warm-up as one sound file, for a speaker without a phone; one at a time. */
export function createSoundPlace({
  parts: { book, manner, secondsOf, synthesis },
  state,
  patch,
}: {
  parts: Pick<Parts, 'book' | 'manner' | 'secondsOf' | 'synthesis'>;
  /** Null where no group is led. */
  state: () => WarmUpState | null;
  patch: (change: Partial<WarmUpState>) => void;
}): SoundHands {
  /** How often one was begun or called off. */
  let asked = 0;

  async function saveSound({ id, minutes }: Parameters<SoundHands['saveSound']>[0]) {
    const offer = state()?.offers.find((each) => each.id === id);
    if (offer === undefined) return;
    asked += 1;
    const mine = asked;
    const goesOn = () => mine === asked && state() !== null;
    patch({ sound: 0, told: null, trouble: null });
    const saving = await loadSaving().catch(() => null);
    if (!goesOn()) return;
    if (saving === null) return patch({ sound: null, trouble: NOT_ARRIVED });
    const { stretch } = manner.now();
    const spoken = saving.spokenSeconds(secondsOf, stretch);
    const plan = saving.planWarmUp(book, offer.warmUp, spoken, {
      endSeconds: minutes === null ? undefined : minutes * 60,
    });
    if ('leastSeconds' in plan) {
      const least = Math.ceil(plan.leastSeconds / 60);
      return patch({ sound: null, trouble: `It takes ${least} minutes at least.` });
    }
    try {
      const file = await saving.soundFileOf(
        plan,
        { secondsOf, stretch, speak: (text, voice) => synthesis.make(text, voice, 'later') },
        (share) => {
          if (goesOn()) patch({ sound: share });
          return goesOn();
        },
      );
      if (file === null) return;
      download(`${id}.wav`, file, file.type);
      const left = plan.leftOut.length === 0 ? '' : ` Left out: ${plan.leftOut.join(', ')}.`;
      patch({ sound: null, told: `${id}.wav is saved.${left}` });
    } catch (problem) {
      if (goesOn()) patch({ sound: null, trouble: saving.soundTrouble(problem) });
    }
  }

  return {
    saveSound,
    cancelSound() {
      asked += 1;
      if (state() !== null) patch({ sound: null });
    },
  };
}
