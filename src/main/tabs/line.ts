import type { Cancel } from '../../ports';
import type { Elsewhere } from '../../screens/people/elsewhere';

/** What the tabs of a device tell each other. */
export type Message =
  /** Who runs a session? */
  | { type: 'who' }
  | { type: 'runs'; what: Elsewhere }
  /** What ran is over, or was left. */
  | { type: 'over'; session: string }
  | { type: 'stop' }
  /** Store all of it and let go: it goes on in the tab that asks. */
  | { type: 'give-up'; session: string }
  | { type: 'given-up'; session: string }
  /** It does not let go; `why` is said to whoever asked. */
  | { type: 'keeps'; session: string; why: string };

/** Joins the tabs of a device, each to all the others. */
export interface Line {
  tell(message: Message): void;
  listen(hear: (message: Message) => void): Cancel;
}

/** What is needed of a BroadcastChannel. */
export type Channel = Pick<
  BroadcastChannel,
  'postMessage' | 'addEventListener' | 'removeEventListener'
>;

/** Tabs of a version that tells other things do not understand each other, and so do not speak. */
const FORMAT = 'sayso-tabs-1';

/** What this browser joins its tabs by; null where it has none, or refuses. */
export function channelOf(name: string): Channel | null {
  try {
    return new BroadcastChannel(name);
  } catch {
    return null;
  }
}

/** A line over `channel`; nobody is at its other end where the browser has none. */
export function createLine(channel: Channel | null): Line {
  return {
    tell: (message) => channel?.postMessage({ format: FORMAT, message }),
    listen(hear) {
      const take = ({ data }: MessageEvent<{ format: string; message: Message }>) => {
        if (data.format === FORMAT) hear(data.message);
      };
      channel?.addEventListener('message', take);
      return () => channel?.removeEventListener('message', take);
    },
  };
}
