/** Results of a long run, a line each, in a folder from which it can go on. */
import { existsSync, readFileSync } from 'node:fs';

/** Those that the file has so far; none where there is no such file. */
export function readKept<T>(file: string): T[] {
  if (!existsSync(file)) return [];
  return readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as T);
}
