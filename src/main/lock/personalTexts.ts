import { KEPT_KEY } from '../homework/homeworkKey';
import { base64, bytesOf } from '../../records/base64';
import { seal, unseal } from '../../records/seal';
import type { Vault } from '../../records/vault';

/** What the page's storage keeps of athletes: who is seen on a squad day, and its warning signs. */
export const PERSONAL_KEYS = ['sayso-squad-day', KEPT_KEY] as const;

/** Where texts are kept, as the page's storage keeps them. */
export type TextStorage = Pick<Storage, 'getItem' | 'setItem'>;

/** The page's storage, in which personal texts lie under the key of the record where it is locked. */
export interface PersonalTexts extends TextStorage {
  /** Opens what lies sealed, once the vault has the key: from then on it can be read at once. */
  open(): Promise<void>;
  /** Writes all of it anew, sealed or open. */
  settle(isSealed: boolean): Promise<void>;
}

const SEALED = 'sealed-1:';

export function createPersonalTexts(storage: () => Storage, vault: Vault): PersonalTexts {
  /** Of what lies sealed, as it is read. */
  const opened = new Map<string, string>();
  let seals = false;
  let last: Promise<unknown> = Promise.resolve();
  /** One after the other, so that an older text never follows a newer one. */
  const write = (key: string, text: string) => {
    const { open } = vault;
    if (!seals || open === null) return storage().setItem(key, text);
    last = last
      .then(() => seal(open, ['page', key], text))
      .then((bytes) => storage().setItem(key, SEALED + base64(bytes)))
      // Full or refused: it holds until the page is closed.
      .catch(() => undefined);
  };
  return {
    getItem(key) {
      const text = opened.get(key) ?? storage().getItem(key);
      return text?.startsWith(SEALED) === true ? '' : text;
    },
    setItem(key, text) {
      opened.set(key, text);
      write(key, text);
    },
    async open() {
      const { open } = vault;
      for (const key of PERSONAL_KEYS) {
        const text = storage().getItem(key);
        if (open === null || text?.startsWith(SEALED) !== true) continue;
        const bytes = bytesOf(text.slice(SEALED.length)) ?? new Uint8Array();
        // What is no text of a squad day is told as damaged where it is read.
        const read = await unseal(open, ['page', key], bytes).catch(() => 'damaged');
        opened.set(key, String(read));
      }
    },
    async settle(isSealed) {
      seals = isSealed;
      for (const key of PERSONAL_KEYS) {
        const text = this.getItem(key);
        if (text !== null && text !== '') this.setItem(key, text);
      }
      await last;
    },
  };
}
