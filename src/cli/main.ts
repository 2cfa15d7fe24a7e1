#!/usr/bin/env node
import { run } from './running';

/** Who reads only the first lines, as `head` does, wants no more: that is no failure. */
process.stdout.on('error', (problem: NodeJS.ErrnoException) => {
  if (problem.code === 'EPIPE') process.exit(0);
  throw problem;
});

process.exitCode = await run(process.argv.slice(2));
