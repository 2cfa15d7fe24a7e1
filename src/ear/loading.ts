import { FileMissingError, type BuiltFile } from '../offline/fetching';
import { createDetector, type Detector } from './detecting';
import { smallReader, strongReader, type PhoneReader, type Runtime } from './phoneReader';
import type { EarSize } from './sizes';

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
  /** The strong one where the small one cannot be had. */
  size: EarSize;
}

/** Where the models come from. */
interface Outside {
  runtime: Runtime;
  files: EarFiles;
  /** One of `files` by its path. */
  fetchFile: (
    path: string,
    file: BuiltFile,
    arrived?: (bytes: number) => void,
  ) => Promise<Uint8Array>;
}

const fetching =
  ({ files, fetchFile }: Outside, arrived?: (bytes: number) => void) =>
  (path: string) => {
    const file = files[path];
    if (file === undefined) throw new FileMissingError(`${path}: the page was built without it.`);
    return fetchFile(path, file, arrived);
  };

/**
 * Loads what hears first: the small reader.
 * @param progress how much has arrived of it, 0 to 1.
 * @throws FileMissingError where neither size can be had.
 */
export async function loadEar(
  outside: Outside & { progress: (fraction: number) => void },
): Promise<EarParts> {
  const { runtime, files, progress } = outside;
  const hasSmall = SMALL in files;
  const first = [RUNTIME, DETECTOR, ...(hasSmall ? [SMALL] : STRONG)];
  const bytes = first.reduce((sum, path) => sum + (files[path]?.bytes ?? 0), 0);
  let have = 0;
  const fetched = fetching(outside, (more) => {
    have += more;
    progress(Math.min(1, Math.max(0, have / bytes)));
  });
  const [wasm, vad, small, strong] = await Promise.all([
    fetched(RUNTIME),
    fetched(DETECTOR),
    hasSmall ? fetched(SMALL).catch(missed) : null,
    hasSmall ? null : strongFiles(fetched),
  ]);
  const detector = await compiled(runtime, wasm, () => createDetector(runtime, vad));
  if (small !== null && !(small instanceof FileMissingError))
    return { detector, reader: await smallReader(runtime, { head: small }), size: 'small' };
  const models = strong ?? (await strongFiles(fetching(outside)));
  return { detector, reader: await strongReader(runtime, models), size: 'strong' };
}

/**
 * Loads what hears better, in a thread of its own: the strong reader, and the small one beside it.
 * @throws FileMissingError, FileDamagedError
 */
export async function loadStrong(
  outside: Outside,
): Promise<{ strong: PhoneReader; small: PhoneReader }> {
  const { runtime } = outside;
  const fetched = fetching(outside);
  const [wasm, head, models] = await Promise.all([
    fetched(RUNTIME),
    fetched(SMALL),
    strongFiles(fetched),
  ]);
  const small = await compiled(runtime, wasm, () => smallReader(runtime, { head }));
  return { small, strong: await strongReader(runtime, models) };
}

async function strongFiles(fetched: (path: string) => Promise<Uint8Array>) {
  const [encoder, head] = await Promise.all([fetched(STRONG[0]), fetched(STRONG[1])]);
  return { encoder, head };
}

/** The first model makes the runtime be compiled; its file is not needed any more then. */
async function compiled<Model>(
  runtime: Runtime,
  wasm: Uint8Array,
  first: () => Promise<Model>,
): Promise<Model> {
  runtime.env.wasm.wasmBinary = wasm;
  const model = await first();
  delete runtime.env.wasm.wasmBinary;
  return model;
}

const missed = (problem: unknown) => {
  if (problem instanceof FileMissingError) return problem;
  throw problem;
};
