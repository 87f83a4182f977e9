import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../src/circuit/diagnostic.js';
import { placeOf, printDiagnostic, printDiagnostics } from '../../src/circuit/print-diagnostic.js';

function mistake(text: string, marked: string, more: Partial<Diagnostic> = {}): Diagnostic {
  const start = text.indexOf(marked);
  return {
    code: 'unknown-name',
    severity: 'error',
    range: { start, end: start + marked.length },
    message: 'there is no place called “fuse bx”',
    mend: 'did you mean fuse box?',
    ...more,
  };
}

/** The text above the carets of the excerpt. */
function underCaret([, line, carets]: readonly string[]): string {
  const from = carets!.indexOf('^');
  return line!.slice(from, carets!.lastIndexOf('^') + 1);
}

describe('printDiagnostic', () => {
  it('when a mistake is printed then name, line, column, the line, a caret and the mend appear', () => {
    const text = 'parts:\n  F4: {type: fuse, place: fuse bx}\n';
    expect(printDiagnostic(text, 'van.yaml', mistake(text, 'fuse bx'))).toEqual([
      'van.yaml:2:27: error: there is no place called “fuse bx”',
      '  F4: {type: fuse, place: fuse bx}',
      '                          ^^^^^^^',
      '  Mend: did you mean fuse box?',
    ]);
  });

  it('when the line is long then the caret stays within 80 columns and under its word', () => {
    for (const before of [0, 10, 70, 76, 80, 200, 5000]) {
      for (const after of [0, 30, 200, 5000]) {
        const text = `a: ${'x'.repeat(before)}WRONG${'y'.repeat(after)}\nb: 1\n`;
        const lines = printDiagnostic(text, 'a.yaml', mistake(text, 'WRONG'));
        expect(underCaret(lines)).toBe('WRONG');
        for (const line of lines.slice(1, 3)) expect(line.length).toBeLessThanOrEqual(80);
      }
    }
  });

  it('when the marked part is longer than a line then it is cut', () => {
    const text = `a: ${'w'.repeat(500)}\n`;
    const lines = printDiagnostic(text, 'a.yaml', mistake(text, 'w'.repeat(500)));
    expect(underCaret(lines)).toMatch(/^w{10,38}$/);
    expect(lines[1]!.length).toBeLessThanOrEqual(80);
  });

  it('when the marked part goes on over several lines then only the first is marked', () => {
    const text = 'parts:\n  F4:\n    type: fuse\n';
    const [, line, carets] = printDiagnostic(text, 'a.yaml', mistake(text, 'F4:\n    type: fuse'));
    expect([line, carets]).toEqual(['  F4:', '  ^^^']);
  });

  it('when wide characters and accents stand before the mistake then the caret is under it on a terminal', () => {
    const text = 'name: 尾灯 e\u0301 🔧 WRONG\n';
    const [head, , carets] = printDiagnostic(text, 'a.yaml', mistake(text, 'WRONG'));
    expect(head).toMatch(/^a\.yaml:1:15:/);
    // Two columns for each of 尾, 灯 and 🔧; none for the combining accent.
    expect(carets).toBe(`  ${' '.repeat('name: '.length + 4 + 1 + 1 + 1 + 2 + 1)}^^^^^`);
  });

  it('when the line ends with CR LF then neither the column nor the excerpt shows it', () => {
    const text = 'a: 1\r\nb: WRONG\r\nc: 2\r\n';
    expect(printDiagnostic(text, 'a.yaml', mistake(text, 'WRONG')).slice(0, 3)).toEqual([
      'a.yaml:2:4: error: there is no place called “fuse bx”',
      '  b: WRONG',
      '     ^^^^^',
    ]);
  });

  it('when the mistake is at the very end then the caret stands behind the last character', () => {
    const text = 'a: {b';
    const lines = printDiagnostic(text, 'a.yaml', mistake(text, '', { range: { start: 5, end: 5 } }));
    expect(lines.slice(1, 3)).toEqual(['  a: {b', '       ^']);
  });

  it('when name, message, line or mend would command the terminal then they are shown harmless', () => {
    const text = 'a: \u001b]0;owned\u0007\u202ex WRONG\u001b[2J\n';
    const lines = printDiagnostic(
      text,
      '\u001b[31mevil.yaml',
      mistake(text, 'WRONG', { message: 'no “\u202e\u001b[2J”', mend: 'try \u0007' }),
    );
    expect(lines[0]).toBe('evil.yaml:1:17: error: no “<U+202E>”');
    for (const line of lines) expect(line).not.toMatch(/[\p{Cc}\p{Cf}]/u);
  });

  it('when there is no text to point at then the file alone is named', () => {
    expect(printDiagnostic('', 'a.yaml', mistake('', '', { message: 'there is no such file' }))).toEqual([
      'a.yaml: error: there is no such file',
      '  Mend: did you mean fuse box?',
    ]);
  });
});

describe('printDiagnostics', () => {
  const text = 'a: 1\n';

  it('when there is one error then no count is printed', () => {
    expect(printDiagnostics(text, 'a.yaml', [mistake(text, 'a')])).toHaveLength(4);
  });

  it('when there are several errors then they are counted, advice aside', () => {
    const list = [mistake(text, 'a'), mistake(text, '1', { severity: 'advice' }), mistake(text, ':')];
    expect(printDiagnostics(text, 'a.yaml', list).at(-1)).toBe('2 errors in a.yaml');
  });

  it('when there are more than twenty then the first twenty errors are shown and the rest counted', () => {
    const advice = mistake(text, 'a', { severity: 'advice' });
    const lines = printDiagnostics(text, 'a.yaml', [
      advice,
      ...Array<Diagnostic>(300).fill(mistake(text, '1')),
    ]);
    expect(lines).toHaveLength(20 * 4 + 1);
    expect(lines.at(-1)).toBe('300 errors in a.yaml; the first 20 are shown');
  });
});

describe('placeOf', () => {
  it.each([
    ['', 0, 1, 1],
    ['ab', 5, 1, 3],
    ['a\nb', 2, 2, 1],
    ['\ufeffab', 2, 1, 2],
    ['🔧x', 2, 1, 2],
    ['a\n\n\nb', 3, 3, 1],
  ])('when the text is %j and the offset %d then it is line %d, column %d', (text, offset, line, column) => {
    expect(placeOf(text, offset)).toEqual({ line, column });
  });
});
