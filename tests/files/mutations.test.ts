import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { damage } from './damaged.js';

const files = readdirSync(new URL('../../circuits/', import.meta.url));
/** A sample; tests/trials/mutations.long.ts has the 10,000. */
const EACH = 90;

describe('circuit files that were damaged at random', () => {
  it.each(files)(`when %s is damaged ${EACH} times then it is read or refused in plain words`, (file) => {
    const { read, refused, codes } = damage(file, EACH);
    // Damage that is always or never found, or always of one kind, would show nothing.
    expect(read).toBeGreaterThan(EACH / 50);
    expect(refused).toBeGreaterThan(EACH / 2);
    expect(codes.size).toBeGreaterThanOrEqual(6);
  });
});
