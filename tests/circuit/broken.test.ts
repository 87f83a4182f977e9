import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { placeOf, printDiagnostics } from '../../src/circuit/print-diagnostic.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { BROKEN } from './broken-cases.js';

const folder = fileURLToPath(new URL('broken/', import.meta.url));

describe('a broken circuit file', () => {
  for (const { file, says } of BROKEN) {
    it(`when it is ${file} then every mistake is told with its place and its mend`, async () => {
      const result = await readCircuit(folder + file);
      const told = 'problems' in result ? result.problems : result.advice;
      expect(
        told.map(({ range, severity, message, mend }) => {
          const { line, column } = placeOf(result.source, range.start);
          return `${line}:${column} ${severity}: ${message}. Mend: ${mend}`;
        }),
      ).toEqual(says);
    });

    it(`when it is ${file} then what is printed holds nothing that could command a terminal`, async () => {
      const result = await readCircuit(folder + file);
      const told = 'problems' in result ? result.problems : result.advice;
      const lines = printDiagnostics(result.source, file, told);
      expect(lines.length).toBeGreaterThan(1);
      for (const line of lines) expect(line).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
    });
  }

  it('when a file is added to broken/ then it must be in the table', () => {
    expect(readdirSync(folder).sort()).toEqual(BROKEN.map(({ file }) => file));
  });

  it('when the only remark is advice then the file still loads', async () => {
    const result = await readCircuit(`${folder}small-fuse.yaml`);
    expect('circuit' in result && result.advice.map(({ code }) => code)).toEqual(['small-fuse']);
  });
});
