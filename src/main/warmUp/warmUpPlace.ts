import { DEFAULT_SETTINGS } from '../../domain/log';
import type { Cancel, Ear, SessionEvent } from '../../ports';
import type { SeatStore } from '../../screens/seat';
import { EMPTY_VIEW, viewOf } from '../../screens/view';
import type { WarmUpChoice, WarmUpHands, WarmUpState } from '../../screens/warmUp/state';
import { interruptible, soundOf } from '../interruptions';
import { musicUnder } from '../musicUnder';
import type { Parts } from '../parts';
import { createOwnPlace, loadWarmUp, NOT_ARRIVED } from './ownPlace';
import { createSoundPlace } from './soundPlace';
import type { Stands } from './warmUpActor';

/** The place at the seat of a group. */
export interface WarmUpPlace extends WarmUpHands {
  /** Seconds since the one that runs began; null where none does. */
  nowSeconds(): number | null;
}

const CHOOSING: WarmUpState = {
  ...{ stage: 'choosing', offers: [], chosen: null, turn: null, isHeld: false, asksEnd: false },
  ...{ endsAtMilliseconds: null, ended: null, trouble: null, listen: 'hands' },
  ...{ wanted: null, building: null, sound: null, told: null },
};

export function createWarmUpPlace({
  parts,
  store,
  listening,
  begins,
  stays,
  storage,
}: {
  parts: Pick<
    Parts,
    | 'beats'
    | 'book'
    | 'clock'
    | 'coach'
    | 'isHeard'
    | 'manner'
    | 'music'
    | 'secondsOf'
    | 'synthesis'
    | 'tones'
    | 'voice'
  >;
  store: SeatStore;
  /** Everything that hears the leader. */
  listening: Ear;
  /** Unlocks what a tap unlocks, and opens the microphone where it is wanted. */
  begins: (listen: WarmUpChoice['listen']) => void;
  /** Keeps the screen on and the headset joined until cancelled. */
  stays: () => Cancel;
  /** Throws where the browser refuses it. */
  storage: () => Storage;
}): WarmUpPlace {
  const { beats, book, clock, coach, isHeard, manner, secondsOf, tones, voice } = parts;
  const underMusic = musicUnder(parts.music, clock);
  let startedAtMilliseconds: number | null = null;
  let end: Cancel = () => undefined;
  /** How often it was begun. */
  let asked = 0;

  const patch = (change: Partial<WarmUpState>) =>
    store.patch({ warmUp: { ...(store.state().warmUp ?? CHOOSING), ...change } });

  function show(event: SessionEvent & { atSeconds: number }) {
    store.patch({ view: viewOf(store.state().view, event) });
    if (event.type === 'trouble' && event.what === 'no-voice') store.patch({ voice: 'none' });
    underMusic.show(event);
  }

  function stands({ context, isHeld, asksEnd }: Stands) {
    const { plan, turn, count, isUnderway, endsAtMilliseconds, planStartsAtMilliseconds } = context;
    const on = plan.turns[turn]?.turn;
    patch({
      ...{ isHeld, asksEnd },
      // Where much was skipped it ends before the end that was promised.
      endsAtMilliseconds:
        endsAtMilliseconds === null ? null : planStartsAtMilliseconds + plan.totalSeconds * 1000,
      ...(isUnderway &&
        on !== undefined && {
          turn: {
            ...{ name: on.name, number: on.at + 1, of: count },
            next: plan.turns[turn + 1]?.turn.name ?? null,
          },
        }),
    });
  }

  const state = () => store.state().warmUp;
  const own = createOwnPlace({ parts, storage, state, patch });
  const sound = createSoundPlace({ parts, state, patch });

  async function lead({ id, minutes, listen }: WarmUpChoice) {
    const { offers } = store.state().warmUp ?? CHOOSING;
    const chosen = offers.find((each) => each.id === id);
    asked += 1;
    const mine = asked;
    const arrived = await loadWarmUp().catch(() => null);
    // It was left meanwhile, or begun a second time.
    if (mine !== asked || store.state().where !== 'warmUp') return;
    if (arrived === null || chosen === undefined) return patch({ trouble: NOT_ARRIVED });
    end();
    manner.speakFor('group');
    const goAway = stays();
    startedAtMilliseconds = clock.now();
    patch({ ...CHOOSING, offers, chosen, listen, stage: 'running' });
    store.patch({ view: EMPTY_VIEW });
    const outside = interruptible({ ear: listening, clock, sound: soundOf(tones) }, (what) =>
      show({ type: 'trouble', what, say: null, atSeconds: 0 }),
    );
    const led = arrived.startWarmUp(
      {
        ...{
          book: isHeard ? coach.book() : book,
          warmUp: chosen.warmUp,
          secondsOf,
          settings: DEFAULT_SETTINGS,
        },
        ports: { clock: outside.clock, ear: outside.ear, voice, tones, beats, screen: { show } },
        callWord: isHeard ? coach.callWord() : null,
        endsAtMilliseconds: minutes === null ? null : clock.now() + minutes * 60_000,
        isLedByVoice: listen === 'microphone',
      },
      {
        stands,
        over: (ended) => {
          end();
          patch({ stage: 'over', ended, turn: null });
        },
      },
    );
    end = () => {
      end = () => undefined;
      startedAtMilliseconds = null;
      led.stop();
      outside.leave();
      goAway();
      underMusic.leave();
    };
  }

  return {
    ...own,
    ...sound,
    show() {
      manner.speakFor('group');
      patch(CHOOSING);
      store.patch({ where: 'warmUp', view: EMPTY_VIEW });
      void own.offer({});
    },
    begin(choice) {
      sound.cancelSound();
      begins(choice.listen);
      void lead(choice);
    },
    leave() {
      sound.cancelSound();
      end();
      // Whoever is spoken to next is one.
      manner.speakFor('hands-on');
      store.patch({ where: 'people', warmUp: null, view: EMPTY_VIEW });
    },
    nowSeconds: () =>
      startedAtMilliseconds === null ? null : (clock.now() - startedAtMilliseconds) / 1000,
  };
}
