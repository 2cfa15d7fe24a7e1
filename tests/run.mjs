import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { constants, setPriority } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildChanged } from '../src/serving/building.mjs';
import { checkNode, installMissing } from '../src/serving/installing.mjs';
import { runCommand, UsageTrouble } from '../src/serving/trouble.mjs';
import { findChromium } from './runner/chromium.mjs';
import { countReport, lastLine } from './runner/counting.mjs';
import { isPriorityKept } from './runner/priority.mjs';

/** @typedef {import('./runner/counting.mjs').Count} Count */

const root = fileURLToPath(new URL('../', import.meta.url));
const STAGES = ['build', 'types', 'lint', 'format', 'scripts', 'unit', 'pages', 'hearing'];
/** A stage that hangs is ended after this; what gives way to others may have to wait for them. */
const LIMIT_MINUTES = 15;
const WAITING_LIMIT_MINUTES = 30;
/** What a program that was ended has still said is waited for so long, and no longer. */
const LAST_WORDS_MS = 5000;

/** The four that look at the whole tree, each one test. */
const CHECKS = /** @type {Record<string, string[]>} */ ({
  types: [
    'node_modules/typescript-native/bin/tsc',
    '--noEmit',
    '--singleThreaded',
    '-p',
    'tsconfig.json',
  ],
  lint: ['node_modules/eslint/bin/eslint.js', '--max-warnings', '0', '.'],
  format: ['node_modules/prettier/bin/prettier.cjs', '--check', '--log-level', 'warn', '.'],
  scripts: ['node_modules/tsx/dist/cli.mjs', 'src/cli/main.ts', 'scripts'],
});

/**
 * An ear in Chromium hears in true time and takes a core while somebody speaks: two at once, at the
 * usual priority, and one that another program kept from hearing is given a second time, which the
 * output says.
 */
const IN_CHROMIUM = {
  pages: ['--fileParallelism', '--maxWorkers=4'],
  hearing: ['--fileParallelism', '--maxWorkers=2', '--retry=1'],
};

const IN_CHROMIUM_STAGES = /** @type {(keyof typeof IN_CHROMIUM)[]} */ (Object.keys(IN_CHROMIUM));

/**
 * Runs a Node program of the project.
 * @param {string[]} words
 * @param {{ show?: boolean, env?: Record<string, string>, givesWay?: boolean, after?: Promise<unknown> }} [options]
 *   show: print as it comes; givesWay: takes what others leave of the processor; after: print from
 *   then on, and what came before
 * @returns {Promise<{ code: number, said: string }>}
 */
function run(words, { show = false, env = {}, givesWay = false, after } = {}) {
  const limitMinutes = givesWay ? WAITING_LIMIT_MINUTES : LIMIT_MINUTES;
  const child = spawn(process.execPath, words, {
    cwd: root,
    // The build leaves NODE_ENV as production, under which React has no test helpers.
    env: { ...process.env, NODE_ENV: 'test', ...env },
    stdio: ['ignore', show ? 'inherit' : 'pipe', show ? 'inherit' : 'pipe'],
    timeout: limitMinutes * 60_000,
  });
  if (givesWay && child.pid !== undefined) lower(child.pid);
  let said = '';
  let isShown = false;
  const hear = (/** @type {string} */ piece) => {
    said += piece;
    if (isShown) process.stdout.write(piece);
  };
  void after?.then(() => {
    isShown = true;
    process.stdout.write(said);
  });
  const outputs = [child.stdout, child.stderr];
  for (const output of outputs) output?.setEncoding('utf8').on('data', hear);
  return new Promise((resolve) => {
    child.on('error', (error) => resolve({ code: 1, said: String(error) }));
    // What it began may outlive it and hold its output open.
    child.on('exit', () =>
      setTimeout(() => outputs.forEach((output) => output?.destroy()), LAST_WORDS_MS).unref(),
    );
    child.on('close', (code, signal) => {
      if (child.killed) hear(`\nended after ${limitMinutes} minutes\n`);
      else if (signal !== null) hear(`\nended by ${signal}\n`);
      resolve({ code: code ?? 1, said });
    });
  });
}

/** @param {number} pid */
function lower(pid) {
  try {
    setPriority(pid, constants.priority.PRIORITY_LOW);
  } catch {
    // It has ended, or it runs as others do.
  }
}

/**
 * Says how a stage went and how long it took, and each minute that it runs: what stays silent is
 * ended by some services. One that throws has failed.
 * @param {string} name
 * @param {() => Promise<Count> | Count} stage
 * @returns {Promise<Count>}
 */
async function timed(name, stage) {
  const began = Date.now();
  const minutes = () => Math.round((Date.now() - began) / 60_000);
  const told = setInterval(() => console.log(`${name} is running, ${minutes()} min`), 60_000);
  const count = await worked(name, stage);
  clearInterval(told);
  const how = count.failed === 0 ? 'ok    ' : 'FAILED';
  const tests = count.passed + count.failed;
  const sum = tests > 1 ? `: ${count.passed} passed, ${count.failed} failed` : '';
  const seconds = ((Date.now() - began) / 1000).toFixed(1);
  console.log(`${how} ${name}${sum} (${seconds} s)`);
  if (count.note) console.log(count.note);
  return count;
}

/**
 * @param {string} name
 * @param {() => Promise<Count> | Count} stage
 * @returns {Promise<Count>}
 */
async function worked(name, stage) {
  try {
    return await stage();
  } catch (error) {
    const note = error instanceof Error ? error.message : String(error);
    return { name, passed: 0, failed: 1, note };
  }
}

/** @param {string} name */
const check = (name) =>
  timed(name, async () => {
    const { code, said } = await run(CHECKS[name] ?? [], { givesWay: true });
    return code === 0
      ? { name, passed: 1, failed: 0 }
      : { name, passed: 0, failed: 1, note: said.trimEnd() };
  });

/**
 * Projects of vitest (vitest.config.ts), counted from their JSON report. One that is run beside
 * another gives way to it, and is shown once that is over.
 * @param {string} name
 * @param {string[]} projects
 * @param {string[]} words
 * @param {{ env?: Record<string, string>, beside?: Promise<unknown> }} [options]
 */
const vitest = (name, projects, words, { env = {}, beside } = {}) =>
  timed(name, async () => {
    const file = join(root, 'node_modules/.cache/sayso', `${name}.json`);
    mkdirSync(join(file, '..'), { recursive: true });
    rmSync(file, { force: true });
    const { code, said } = await run(
      [
        'node_modules/vitest/vitest.mjs',
        'run',
        ...projects.flatMap((project) => ['--project', project]),
        ...words,
        ...['--reporter=default', '--reporter=json', `--outputFile.json=${file}`],
      ],
      beside ? { env, givesWay: true, after: beside } : { env, show: true },
    );
    // Shown as it came, but for why it was ended.
    if (!beside && said) console.log(said.trim());
    const report = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null;
    return countReport(name, report, code);
  });

/**
 * A stage that either works or throws.
 * @param {string} name
 * @param {() => Promise<void> | void} work
 */
const attempt = (name, work) =>
  timed(name, async () => {
    await work();
    return { name, passed: 1, failed: 0 };
  });

/**
 * What looks at the whole tree, one after the other.
 * @param {(name: string) => boolean} wants
 */
async function checks(wants) {
  /** @type {Count[]} */
  const counts = [];
  for (const name of Object.keys(CHECKS).filter(wants)) counts.push(await check(name));
  return counts;
}

/**
 * @param {(name: string) => boolean} wants
 * @param {Promise<unknown>} [beside] what it gives way to
 */
const onNode = async (wants, beside) =>
  wants('unit')
    ? [
        await vitest(
          'unit',
          ['rooms', 'mocked'],
          // Beside what goes first a test may be kept waiting too long: it is given a second time then.
          ['--maxWorkers=2', ...(beside ? ['--retry=1'] : [])],
          beside ? { beside } : {},
        ),
      ]
    : [];

/**
 * The built page in Chromium.
 * @param {keyof typeof IN_CHROMIUM} stage
 * @param {(name: string) => boolean} wants
 */
async function inChromium(stage, wants) {
  if (!wants(stage)) return [];
  let CHROMIUM = '';
  const found = await attempt('chromium', () => {
    CHROMIUM = findChromium();
  });
  if (found.failed > 0) return [found];
  return [await vitest(stage, [stage], IN_CHROMIUM[stage], { env: { CHROMIUM } })];
}

/** @param {string[]} asked stages by name; all where none is named */
async function runStages(asked) {
  /** @param {string} name */
  const wants = (name) => asked.length === 0 || asked.includes(name);
  /** @type {Count[]} */
  const counts = [];
  let built = true;
  if (wants('build') || IN_CHROMIUM_STAGES.some(wants)) {
    counts.push(await attempt('build', () => buildChanged(root)));
    built = counts[0]?.failed === 0;
  }
  // What can wait takes what journeys in Chromium leave, most of it in those of true time.
  const isKept = isPriorityKept();
  const isBeside = isKept && built && wants('hearing');
  const looked = checks(wants);
  if (!isKept) await looked;
  const pages = built ? await inChromium('pages', wants) : [];
  const alone = isBeside ? [] : await onNode(wants);
  const hearing = built ? inChromium('hearing', wants) : Promise.resolve([]);
  const unit = isBeside ? await onNode(wants, hearing) : alone;
  const found = [pages, unit, await hearing, await looked];
  if (!built && IN_CHROMIUM_STAGES.some(wants)) {
    console.log('tests in Chromium are not run: the page was not built');
  }
  counts.push(...found.flat());
  return counts;
}

await runCommand(async () => {
  const asked = process.argv.slice(2);
  const unknown = asked.find((name) => !STAGES.includes(name));
  if (unknown) {
    throw new UsageTrouble(
      `No stage is called ${unknown}. npm test runs all; npm test -- NAME ... only some of: ${STAGES.join(', ')}.`,
    );
  }
  const ready = await attempt('install', async () => {
    checkNode(process.versions.node);
    await installMissing(root);
  });
  const counts = ready.failed > 0 ? [ready] : await runStages(asked);
  console.log(`\n${lastLine(counts)}`);
  if (counts.some(({ failed }) => failed > 0)) process.exitCode = 1;
});
