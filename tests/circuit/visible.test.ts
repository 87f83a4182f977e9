import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { visible } from '../../src/circuit/visible.js';

const ESC = '\u001b';
const TABLE: readonly (readonly [what: string, text: string, shown: string])[] = [
  ['plain text', 'left stop lamp, 21 W', 'left stop lamp, 21 W'],
  ['accents and other scripts', 'Rückfahrlicht – фара – 尾灯 – 🔧', 'Rückfahrlicht – фара – 尾灯 – 🔧'],
  ['a colour', `${ESC}[31mred${ESC}[0m`, 'red'],
  ['a colour with many numbers', `${ESC}[38;2;1;2;3mx`, 'x'],
  ['clearing the screen', `a${ESC}[2Jb`, 'ab'],
  ['a private mode', `${ESC}[?25lx`, 'x'],
  ['a window title ended by BEL', `a${ESC}]0;owned\u0007b`, 'ab'],
  ['a window title ended by ST', `a${ESC}]0;owned${ESC}\\b`, 'ab'],
  ['a link', `${ESC}]8;;http://example.org${ESC}\\text${ESC}]8;;${ESC}\\`, 'text'],
  ['a device control string', `${ESC}Pq#0${ESC}\\x`, 'x'],
  ['a full reset', `${ESC}cx`, 'x'],
  ['a character set', `${ESC}(0x`, 'x'],
  ['C1 control sequence', '\u009b31mred', 'red'],
  ['C1 operating system command', '\u009d0;owned\u009cx', 'x'],
  ['an escape at the end', `x${ESC}`, 'x<U+001B>'],
  ['a control string without end', `a${ESC}]0;owned`, 'a0;owned'],
  ['NUL', 'a\u0000b', 'a<U+0000>b'],
  ['backspace', 'ab\u0008', 'ab<U+0008>'],
  ['delete', 'a\u007f', 'a<U+007F>'],
  ['carriage return', 'good\rbad', 'good<U+000D>bad'],
  ['line feed', 'a\nb', 'a<U+000A>b'],
  ['a tab', 'a\tb', 'a b'],
  ['right-to-left override', 'a\u202eb', 'a<U+202E>b'],
  ['isolates', '\u2066a\u2069', '<U+2066>a<U+2069>'],
  ['zero width space', 'F\u200b4', 'F<U+200B>4'],
  ['soft hyphen', 'F\u00ad4', 'F<U+00AD>4'],
  ['byte order mark', '\ufeffa', '<U+FEFF>a'],
  ['line separator', 'a\u2028b', 'a<U+2028>b'],
  ['paragraph separator', 'a\u2029b', 'a<U+2029>b'],
  ['a tag character beyond the first plane', 'a\u{e0041}', 'a<U+E0041>'],
  ['half a surrogate pair', 'a\ud83d', 'a<U+D83D>'],
];

describe('visible', () => {
  it.each(TABLE)('when the text holds %s then it is shown harmless', (_what, text, shown) => {
    expect(visible(text)).toBe(shown);
  });

  it('when line breaks are allowed then only line feeds are kept', () => {
    expect(visible('a\r\nb\u2028c', { lines: true })).toBe('a<U+000D>\nb<U+2028>c');
  });

  it('when any text is shown then nothing invisible is left in it', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        expect(visible(text)).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/u);
      }),
      { seed: 20, numRuns: 500 },
    );
  });

  it('when shown text is shown again then it does not change', () => {
    const piece = fc.constantFrom(ESC, '[', ']', '3', ';', 'm', 'c', '\u0007', '\\', '\u009b', 'a', '\u202e');
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 20 }), (pieces) => {
        const once = visible(pieces.join(''));
        expect(visible(once)).toBe(once);
      }),
      { seed: 21, numRuns: 500 },
    );
  });
});
