import type { CueBook, PromptId } from '../domain/script';
import type { Side } from '../domain/areas';
import type { Cancel, Clock, Ports, SessionEvent, ToneName } from '../ports';

/** What the children tell the session while they run. */
export type StageReport =
  /** Line `index` of the work begins: where to go on after a pause. */
  | { type: 'AT_LINE'; index: number }
  /** The question opened at that time, or is asked again (the time of its first opening). */
  | { type: 'OPENED'; prompt: PromptId; side: Side | null; openedAtMilliseconds: number };

/** Everything the machines may touch of the outside, each use also told to the screen. */
export interface Stage {
  book: CueBook;
  clock: Clock;
  /** How long a text takes to say, in seconds, from the committed table. */
  secondsOf(text: string): number;
  say(text: string, ended: () => void): Cancel;
  prepare(texts: string[]): void;
  tone(name: ToneName): void;
  hush(): void;
  attend(prompt: PromptId): void;
  show(event: SessionEvent): void;
  report(report: StageReport): void;
}

/** Joins the ports to one stage. `startedAtMilliseconds` gives every shown event its time. */
export function createStage(
  book: CueBook,
  ports: Ports,
  secondsOf: (text: string) => number,
  startedAtMilliseconds: number,
  report: (report: StageReport) => void,
): Stage {
  const show = (event: SessionEvent) =>
    ports.screen.show({
      ...event,
      atSeconds: (ports.clock.now() - startedAtMilliseconds) / 1000,
    });
  return {
    book,
    clock: ports.clock,
    secondsOf,
    say(text, ended) {
      const { clock, voice } = ports;
      const seconds = secondsOf(text);
      const readAtMilliseconds = clock.now() + seconds * 1000;
      show({ type: 'cue', text, seconds });
      let timer: unknown;
      const cancel = voice.say(text, {
        ended: (how) => {
          if (how === 'spoken') return ended();
          // Nothing sounds, so the caption gets the time that the words would have taken.
          show({ type: 'trouble', what: 'no-voice', say: null });
          timer = clock.setTimeout(ended, Math.max(0, readAtMilliseconds - clock.now()));
        },
      });
      return () => {
        cancel();
        clock.clearTimeout(timer);
      };
    },
    prepare: (texts) => ports.voice.prepare(texts),
    tone(name) {
      show({ type: 'tone', name });
      ports.tones.play(name);
    },
    hush: () => ports.tones.hush(),
    attend: (prompt) => ports.ear.attend(prompt),
    show,
    report,
  };
}
