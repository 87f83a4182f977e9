/**
 * The one gate for text that came from a file or a keyboard, on its way to a screen or a report.
 * A file must not be able to move the cursor, recolour the screen or turn the reading direction round.
 */

// ECMA-48 control strings (OSC, DCS, APC, PM, SOS), control sequences (CSI) and two-character escapes.
const SEQUENCES =
  /(?:\u001b[\]PX^_]|[\u009d\u0090\u0098\u009e\u009f])[^\u0007\u001b\u009c]*(?:\u0007|\u001b\\|\u009c)|(?:\u001b\[|\u009b)[0-?]*[ -/]*[@-~]|\u001b[ -/]*[0-~]/g;
const INVISIBLE = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu;

/**
 * Text without terminal sequences, with every remaining invisible character written out as `<U+200B>`.
 * Tabs become one space; line breaks are kept only with `lines`.
 */
export function visible(text: string, { lines = false } = {}): string {
  return text.replace(SEQUENCES, '').replace(INVISIBLE, (character) => {
    if (character === '\t') return ' ';
    if (lines && character === '\n') return character;
    return `<U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}>`;
  });
}
