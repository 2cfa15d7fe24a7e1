/** A text that this device keeps under a name. */
export interface KeptText {
  /** Null where none was kept, or where the browser refuses its storage. */
  load(): string | null;
  /** Where it is refused, the text holds until the page is closed. */
  save(text: string): void;
}

/** In the page's storage; `storage` throws where the browser refuses it. */
export const keptText = (
  storage: () => Pick<Storage, 'getItem' | 'setItem'>,
  key: string,
): KeptText => ({
  load: () => {
    try {
      return storage().getItem(key);
    } catch {
      return null;
    }
  },
  save: (text) => {
    try {
      storage().setItem(key, text);
    } catch {
      // Full or refused: nothing that the coach can do beside the bar.
    }
  },
});
