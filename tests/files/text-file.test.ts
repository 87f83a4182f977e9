import { execFileSync } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decode, MOST_BYTES, readTextFile } from '../../src/files/text-file.js';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'text-file-'));
});
afterAll(() => rm(folder, { recursive: true }));

const bytes = (...parts: (string | number[])[]) =>
  Buffer.concat(parts.map((part) => (typeof part === 'string' ? Buffer.from(part) : Buffer.from(part))));

async function refusal(path: string) {
  const file = await readTextFile(path);
  return 'problems' in file ? file.problems[0]!.message : `read ${file.text.length} characters`;
}

describe('readTextFile', () => {
  it('when the file has a byte order mark then the text begins after it', async () => {
    const path = join(folder, 'bom.yaml');
    await writeFile(path, '\ufeffcircuit: a\n');
    expect(await readTextFile(path)).toMatchObject({ text: 'circuit: a\n' });
  });

  it('when the file has exactly 1 MiB then it is read, one byte more and it is refused', async () => {
    const path = join(folder, 'big.yaml');
    await writeFile(path, '#'.repeat(MOST_BYTES));
    expect(await refusal(path)).toBe(`read ${MOST_BYTES} characters`);
    await writeFile(path, '#'.repeat(MOST_BYTES + 1));
    expect(await refusal(path)).toBe('the file is larger than 1 MiB');
  });

  it('when there is no file, or a folder, then that is said', async () => {
    expect(await refusal(join(folder, 'none.yaml'))).toBe('there is no such file');
    expect(await refusal(join(folder, 'none', 'none.yaml'))).toBe('there is no such file');
    expect(await refusal(folder)).toBe('this is a folder, not a file');
    expect(await refusal('a\0b')).toMatch(/cannot be read/);
  });

  it.skipIf(process.platform === 'win32')(
    'when it is a pipe nobody writes to, or an endless device, then it is refused at once',
    async () => {
      const pipe = join(folder, 'pipe');
      execFileSync('mkfifo', [pipe]);
      expect(await refusal(pipe)).toBe('this is not an ordinary file');
      expect(await refusal('/dev/zero')).toBe('this is not an ordinary file');
    },
  );
});

describe('decode', () => {
  it.each([
    ['a stray byte', bytes('title: l', [0xe4], 'mp'), 8],
    ['a byte that never occurs', bytes('ab', [0xff], 'c'), 2],
    ['a stray byte behind an honest replacement character', bytes('\ufffd a', [0x80]), 3],
    ['a stray byte behind wide characters', bytes('尾灯🔧', [0xc0, 0x80]), 4],
    ['a character cut off at the end', bytes('尾灯🔧', [0xf0, 0x9f, 0x94]), 4],
    ['a character cut off by another', bytes('ä', [0xe2, 0x82], 'x'), 1],
    ['an overlong slash', bytes('a', [0xe0, 0x80, 0xaf]), 1],
    ['half a surrogate pair', bytes('a', [0xed, 0xa0, 0x80]), 1],
  ])('when it holds %s then the place is told', (_what, file, at) => {
    const result = decode(file);
    expect('problems' in result && result.problems[0]).toMatchObject({
      code: 'bad-encoding',
      range: { start: at },
    });
  });

  it.each([
    ['little', Buffer.from('\ufeffa: 1', 'utf16le')],
    ['big', Buffer.from('\ufeffa: 1', 'utf16le').swap16()],
  ])('when it is UTF-16, %s end first, then that is said', (_end, file) => {
    const result = decode(file);
    expect('problems' in result && result.problems[0]!.message).toBe('the file is saved as UTF-16');
  });
});
