/** An outcome is called what a person would see, not the mean of what several suspects would show. */
import { expect, test } from 'vitest';
import { whenWords } from '../../src/planning/outcome-words.js';
import { workbenchOf } from '../diagnosis/session-of.js';

test.each([
  ['most suspects let it run and one hardly', [0.85, 0.86, 0.9, 0.88, 0.2], 'runs'],
  ['half of them let it run and half drag it', [0.9, 0.85, 0.45, 0.5], 'runs or slow'],
  ['none lets it turn', [0, 0.05, 0.2], 'stopped'],
])('when %s then the outcome is told so', async (_, shares, words) => {
  const bench = await workbenchOf('door-locks');
  expect(whenWords(bench, { kind: 'load', load: 'M1', value: 'off' }, shares)).toBe(words);
});
