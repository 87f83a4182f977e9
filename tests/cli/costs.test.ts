/** A person's own costs on the command line. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { bench, REVERSING, shown, type Bench } from './bench.js';

let at: Bench;
beforeEach(async () => {
  at = await bench();
});
afterEach(() => at.remove());

async function minutesOfNext(costs: readonly string[]): Promise<number> {
  const ran = await at.run(['next', '--json', '--session', 's.journal', ...costs]);
  expect(ran.status, shown(ran)).toBe(0);
  return (JSON.parse(ran.stdout) as { suggestions: { minutes: number }[] }).suggestions[0]!.minutes;
}

test('when every test takes longer by my own costs then the suggested one does', async () => {
  await at.run(['new', REVERSING, '--session', 's.journal']);
  await at.run(['record', '--session', 's.journal', 'fails H1 when key on, gear reverse']);
  const own = ['look', 'watch', 'probe', 'far-probe', 'loaded', 'clamp', 'ohms', 'scan'].map(
    (key) => `${key}: 30 min`,
  );
  await at.file('mine.yaml', own.join('\n'));
  const usual = await minutesOfNext([]);
  expect(usual).toBeLessThan(30);
  expect(await minutesOfNext(['--costs', 'mine.yaml'])).toBeGreaterThanOrEqual(30);
});

test('when my file of costs has a mistake then it is shown with its place and nothing begins', async () => {
  await at.file('mine.yaml', 'prob: 1 min\n');
  const ran = await at.run(['start', REVERSING, '--session', 's.journal', '--costs', 'mine.yaml']);
  expect(ran.status, shown(ran)).toBe(2);
  expect(ran.stderr).toContain('mine.yaml:1:1');
  expect(ran.stderr).toContain('did you mean probe?');
  expect(ran.stderr).toContain('mine.yaml cannot be used');
});

test('when the schema of costs is asked for then it names the keys', async () => {
  const ran = await at.run(['schema', 'costs']);
  expect(Object.keys((JSON.parse(ran.stdout) as { properties: object }).properties)).toContain('labour');
});
