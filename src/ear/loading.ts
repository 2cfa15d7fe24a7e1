import { FileDamagedError, FileMissingError, type BuiltFile } from '../offline/fetching';
import { createDetector, type Detector } from './detecting';
import { smallReader, strongReader, type PhoneReader, type Runtime } from './phoneReader';
import type { EarSize, WhySmall } from './sizes';

/** The ear's files by their path under `ear/`; the small head may be none of them. */
export type EarFiles = Record<string, BuiltFile>;

const RUNTIME = 'ort/runtime.wasm.gz';
const DETECTOR = 'vad.onnx';
const SMALL = 'small-head.onnx';
const STRONG = ['encoder.onnx', 'phone-head.onnx'] as const;

/** What the worker needs to hear with. */
export interface EarParts {
  detector: Detector;
  /** Hears first. */
  reader: PhoneReader;
  size: EarSize;
  /**
   * Comes when the strong reader's files have arrived, to make it of them when there is time (it
   * holds up everything for a third of a second); why not, where they do not come. Null where the
   * strong one hears already.
   */
  stronger: Promise<Stronger> | null;
}
export type Stronger = { make: () => Promise<PhoneReader> } | { why: WhySmall; detail: string };

/**
 * Loads what hears first, and then, not to hold that up, what hears better.
 * @param fetchFile one of `files` by its path.
 * @param progress how much has arrived of what hears first, 0 to 1.
 * @throws FileMissingError where neither size can be had.
 */
export async function loadEar(outside: {
  runtime: Runtime;
  files: EarFiles;
  fetchFile: (
    path: string,
    file: BuiltFile,
    arrived?: (bytes: number) => void,
  ) => Promise<Uint8Array>;
  progress: (fraction: number) => void;
}): Promise<EarParts> {
  const { runtime, files, fetchFile, progress } = outside;
  const fetched = (path: string, arrived?: (bytes: number) => void) => {
    const file = files[path];
    if (file === undefined) throw new FileMissingError(`${path}: the page was built without it.`);
    return fetchFile(path, file, arrived);
  };
  const hasSmall = SMALL in files;
  const first = [RUNTIME, DETECTOR, ...(hasSmall ? [SMALL] : STRONG)];
  const bytes = first.reduce((sum, path) => sum + (files[path]?.bytes ?? 0), 0);
  let have = 0;
  const arrived = (more: number) => {
    have += more;
    progress(Math.min(1, Math.max(0, have / bytes)));
  };
  const fetchStrong = async (told?: (bytes: number) => void) => {
    let models = await Promise.all(STRONG.map((path) => fetched(path, told)));
    return () => {
      const [encoder, head] = models;
      // Made once; 13 MB less to hold from then on.
      models = [];
      if (encoder === undefined || head === undefined) throw new FileMissingError('Made twice.');
      return strongReader(runtime, { encoder, head });
    };
  };
  const [wasm, vad, small, strong] = await Promise.all([
    fetched(RUNTIME, arrived),
    fetched(DETECTOR, arrived),
    hasSmall ? fetched(SMALL, arrived).catch(missed) : null,
    hasSmall ? null : fetchStrong(arrived),
  ]);
  runtime.env.wasm.wasmBinary = wasm;
  const detector = await createDetector(runtime, vad);
  // It is compiled now.
  delete runtime.env.wasm.wasmBinary;
  if (small === null || small instanceof FileMissingError) {
    const make = strong ?? (await fetchStrong());
    return { detector, reader: await make(), size: 'strong', stronger: null };
  }
  return {
    detector,
    reader: await smallReader(runtime, { head: small }),
    size: 'small',
    stronger: fetchStrong().then((make) => ({ make }), whySmall),
  };
}

const missed = (problem: unknown) => {
  if (problem instanceof FileMissingError) return problem;
  throw problem;
};
const whySmall = (problem: unknown): Stronger => ({
  why: problem instanceof FileDamagedError ? 'damaged' : 'missing',
  detail: String(problem),
});
