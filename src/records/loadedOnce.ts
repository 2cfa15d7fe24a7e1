/** Loads at the first call and gives the same from then on; a loading that failed is tried again by the next call. */
export function loadedOnce<T>(load: () => Promise<T>): () => Promise<T> {
  let loading: Promise<T> | null = null;
  return () =>
    (loading ??= load().catch((error: unknown) => {
      loading = null;
      throw error;
    }));
}
