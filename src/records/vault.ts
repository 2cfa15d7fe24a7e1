/** The key by which this page opens the record of the device; it lies in memory alone. */
export interface OpenLock {
  /** Of the lock to which the key belongs. */
  keyId: string;
  /** AES-256-GCM; it cannot be taken out. */
  key: CryptoKey;
}

/** Null where the record is not locked, or was not opened in this page. */
export interface Vault {
  open: OpenLock | null;
}

export const createVault = (): Vault => ({ open: null });
