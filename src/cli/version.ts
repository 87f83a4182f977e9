/** The program's name and version, as records and reports carry them. */
import { readFileSync } from 'node:fs';

const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
export const VERSION = (JSON.parse(text) as { version: string }).version;
export const PROGRAM = `knowngood ${VERSION}`;
