/** 10,000 damaged circuit files: no crash, no hang, no stack trace (a seed is named with the first failure). */
import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { damage } from '../files/damaged.js';

const files = readdirSync(new URL('../../circuits/', import.meta.url)).filter((name) =>
  name.endsWith('.yaml'),
);
const each = Math.ceil(10_000 / files.length);

describe('circuit files that were damaged at random', () => {
  it.each(files)(`when %s is damaged ${each} times then it is read or refused in plain words`, (file) => {
    const { read, refused, codes } = damage(file, each);
    console.log(`${file}: ${read} read, ${refused} refused, ${codes.size} kinds of message`);
    expect(read).toBeGreaterThan(each / 50);
    expect(refused).toBeGreaterThan(each / 2);
    expect(codes.size).toBeGreaterThanOrEqual(12);
  });
});
