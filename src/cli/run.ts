/** The only place that touches the process: streams in, exit status out. */
import process from 'node:process';
import { main } from './main.js';

process.exitCode = await main(process.argv.slice(2), {
  stdin: process.stdin,
  stdout: process.stdout,
  stderr: process.stderr,
  env: process.env,
  cwd: process.cwd(),
  now: () => new Date(),
  platform: process.platform,
  isTTY: {
    stdin: process.stdin.isTTY === true,
    stdout: process.stdout.isTTY === true,
    stderr: process.stderr.isTTY === true,
  },
});
