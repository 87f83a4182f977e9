/** Where the bracket or quote was opened that is missed only much later: that line is the one to mend, not the last one. */
import { Lexer } from 'yaml';

export type Opening = '{' | '[' | '"' | "'";

/** Finds the last such opening before an offset that is still open there. */
export type OpeningFinder = (kind: Opening, before: number) => number | undefined;

/** The text is taken apart once, on the first question. */
export function openingFinder(text: string): OpeningFinder {
  let steps: { readonly at: number; readonly source: string }[] | undefined;
  return (kind, before) => {
    steps ??= stepsOf(text);
    const open: { at: number; source: string }[] = [];
    let quote: number | undefined;
    for (const { at, source } of steps) {
      if (at >= before) break;
      if (source === '{' || source === '[') open.push({ at, source });
      else if (source === '}' || source === ']') open.pop();
      else if (source === kind) quote = at;
    }
    if (kind === '"' || kind === "'") return quote;
    const last = open.at(-1);
    return last?.source === kind ? last.at : undefined;
  };
}

function stepsOf(text: string): { at: number; source: string }[] {
  const steps: { at: number; source: string }[] = [];
  let at = 0;
  for (const lexeme of new Lexer().lex(text)) {
    // The lexer's own marks (document, scalar, end of a bracket) take no room in the text.
    if (lexeme === '\u0002' || lexeme === '\u0018' || lexeme === '\u001f') continue;
    if (/^[{}[\]]$/.test(lexeme)) steps.push({ at, source: lexeme });
    else if (lexeme[0] === '"' || lexeme[0] === "'") steps.push({ at, source: lexeme[0] });
    at += lexeme.length;
  }
  return steps;
}
