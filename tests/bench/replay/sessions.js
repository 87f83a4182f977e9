/** Sessions for measuring: the example sessions again and again, with other readings and some findings left out, from a seed. */
import { cp, mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const EXAMPLES = fileURLToPath(new URL('../../../examples/', import.meta.url));
const CIRCUITS = fileURLToPath(new URL('../../../circuits/', import.meta.url));
/** Readings move by up to this part. */
const SPREAD = 0.03;
/** Readings left out, as a part of all. */
const LEFT_OUT = 0.15;
const METERED =
  /^(\s*- (?:volts|drop|ohms|amps|clamp) .*?\s)(-?\d+(?:\.\d+)?)((?:\/\d+(?:\.\d+)?)?(?: when .*)?)$/;

/** Writes `count` session files and their circuits into the folder. */
export async function writeSessions(folder, count, seed = 1) {
  await mkdir(folder, { recursive: true });
  // Copies: whoever corrects a circuit meanwhile must not part the runs.
  await cp(CIRCUITS, join(folder, 'circuits'), { recursive: true });
  const names = (await readdir(EXAMPLES)).filter((name) => name.endsWith('.yaml')).sort();
  const texts = await Promise.all(names.map((name) => readFile(join(EXAMPLES, name), 'utf8')));
  const random = randomFrom(seed);
  for (let n = 0; n < count; n++) {
    const text = texts[n % texts.length].replaceAll('../circuits/', 'circuits/');
    const [steps, expectations] = text.split(/^(?=expect:)/m);
    const varied = steps
      .split('\n')
      .flatMap((line) => {
        const found = METERED.exec(line);
        if (found === null) return [line];
        if (random() < LEFT_OUT) return [];
        const [, before, value, after] = found;
        const digits = (value.split('.')[1] ?? '').length;
        return [before + (Number(value) * (1 + SPREAD * (2 * random() - 1))).toFixed(digits) + after];
      })
      .join('\n');
    const number = String(n + 1).padStart(5, '0');
    await writeFile(join(folder, `${number}-${names[n % names.length]}`), varied + (expectations ?? ''));
  }
}

/** Mulberry32 (public domain, from memory): 0 to 1. */
function randomFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
