import type { Travels } from '../../screens/homework/state';
import { download } from '../download';
import type { Made } from './travelling';

/** What a browser offers to hand things on; what it lacks is undefined. */
export interface Outside {
  copy: ((text: string) => Promise<void>) | undefined;
  share: ((data: ShareData) => Promise<void>) | undefined;
  canShare: ((data: ShareData) => boolean) | undefined;
  save: (name: string, text: string, type: string) => void;
}

const TYPE = 'application/json';
const NOTHING = 'There is nothing to send yet. Make it again.';
const NOT_COPIED =
  'This browser does not let the page copy. Mark the link and copy it, or save the file.';
const NOT_SHARED = 'The device did not hand it on. Copy the link, or save the file.';
const NOT_SAVED = 'The file could not be made. Nothing has changed; try it again.';

const ofWindow = (): Outside => ({
  copy: navigator.clipboard?.writeText.bind(navigator.clipboard),
  share: navigator.share?.bind(navigator),
  canShare: navigator.canShare?.bind(navigator),
  save: download,
});

/** Hands on what was made last: as a link, a file, or by whatever the device offers. */
export function createSending(outside: Outside = ofWindow()) {
  let made: Made | null = null;

  /** As a link where there is one, else as a file. */
  const dataOf = ({ text, travels: { link, file } }: Made): ShareData =>
    link === null ? { files: [new File([text], file, { type: TYPE })] } : { url: link };

  return {
    offer(one: Made): Travels {
      made = one;
      const canShare = outside.canShare?.(dataOf(one)) === true && outside.share !== undefined;
      return { ...one.travels, canShare };
    },
    /** Each gives null once it is done, else what to do. */
    async saveFile(): Promise<string | null> {
      if (made === null) return NOTHING;
      try {
        outside.save(made.travels.file, made.text, TYPE);
        return null;
      } catch {
        return NOT_SAVED;
      }
    },
    async copyLink(): Promise<string | null> {
      const link = made?.travels.link ?? null;
      if (link === null) return NOTHING;
      try {
        if (outside.copy === undefined) return NOT_COPIED;
        await outside.copy(link);
        return null;
      } catch {
        return NOT_COPIED;
      }
    },
    async share(): Promise<string | null> {
      if (made === null) return NOTHING;
      try {
        await outside.share?.(dataOf(made));
        return null;
      } catch (error) {
        // Whoever closes the choice of the device has changed their mind.
        return error instanceof Error && error.name === 'AbortError' ? null : NOT_SHARED;
      }
    },
  };
}

export type Sending = ReturnType<typeof createSending>;
