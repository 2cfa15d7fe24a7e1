/** What stands behind # in the address of the page: browsers send it to nobody. */
export interface Address {
  /** The page itself, without what is behind #. */
  page: string;
  /** With #; empty where there is nothing. */
  hash(): string;
  /** Takes it away, so that a page that is loaded anew does not open it again. */
  clear(): void;
  /** Called when another link is opened in the page that is open. */
  onChange(changed: () => void): void;
}

/** Of this window. */
export const windowAddress = (page: string): Address => ({
  page,
  hash: () => location.hash,
  clear: () => history.replaceState(history.state, '', `${location.pathname}${location.search}`),
  onChange: (changed) => window.addEventListener('hashchange', changed),
});

/** Whether that holds homework or what came of it, whole or not. */
export const isHandedOver = (hash: string): boolean => /^#(homework|report)(=|%3D)/i.test(hash);
