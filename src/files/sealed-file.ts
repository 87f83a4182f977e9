/** Writes students' files: an exercise with what is hidden under a seal; and the way back for the instructor. */
import { relative } from 'node:path';
import { dirname } from 'node:path';
import { stringify } from 'yaml';
import { coveredText, HIDDEN, type LoadedExercise, type Values } from './exercise-file.js';
import { seal } from './seal.js';
import type { YamlValue } from './yaml-source.js';

/** @param out where the file will stand, so that its circuit is found from there */
export function sealedText(
  { document, circuitFile, circuitHash }: LoadedExercise,
  phrase: string,
  out: string,
): string {
  const hidden: Record<string, YamlValue> = {};
  const open: Record<string, YamlValue> = {};
  for (const [name, value] of Object.entries(document)) {
    if ((HIDDEN as readonly string[]).includes(name)) hidden[name] = value;
    else open[name] = value;
  }
  open['circuit'] = fromThere(out, circuitFile);
  const { text, salt, nonce, tag, proof } = seal(
    coveredText(open, circuitHash),
    JSON.stringify(hidden),
    phrase,
  );
  const head =
    '# A sealed exercise. Begin it with: knowngood exercise start THIS-FILE\n# The seal keeps the fault from a glance; it is no safe. Any change to this file shows.\n';
  return head + stringify({ ...open, sealed: { salt, nonce, tag, text, proof } }, { lineWidth: 0 });
}

/** The whole exercise as its instructor wrote it, without comments. */
export function openedText({ document, circuitFile }: LoadedExercise, out: string): string {
  return stringify({ ...(document as Values), circuit: fromThere(out, circuitFile) }, { lineWidth: 0 });
}

function fromThere(out: string, file: string): string {
  return relative(dirname(out), file).replaceAll('\\', '/');
}
