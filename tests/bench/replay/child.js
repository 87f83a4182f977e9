// Runs the built program and says at its end what it took: a JSON line on descriptor 3.
import { writeSync } from 'node:fs';

process.on('exit', () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  writeSync(3, JSON.stringify({ peak: maxRSS / 1024, cpu: (userCPUTime + systemCPUTime) / 1e6 }));
});
await import(process.env.REPLAY_PROGRAM ?? '../../../dist/cli/run.js');
