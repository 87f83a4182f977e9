import { expect, test } from 'vitest';
import { parseCosts, readCostsFile } from '../../src/files/costs-file.js';

const told = (text: string): string[] => {
  const read = parseCosts(text);
  return 'problems' in read ? read.problems.map(({ message, mend }) => `${message}: ${mend}`) : [];
};

test('when a file of costs is right then its minutes and its rate are read', () => {
  expect(parseCosts('probe: 90 s\nhelper: 0 min\nlabour: 72,50\n')).toEqual({
    costs: { probe: 1.5, helper: 0, labour: 72.5 },
  });
});

test('when a key is misspelt then the nearest one is named', () => {
  expect(told('unplugg: 2 min\n')).toEqual(['the file has no entry called “unplugg”: did you mean unplug?']);
});

test('when an amount will not do then each is told with its mend', () => {
  expect(told('probe: 3\nlook: 0 min\nlabour: 0\nclamp: [1, 2]\n').length).toBe(1);
  expect(told('probe: 3\nlook: 0 min\nlabour: 0\n')).toEqual([
    '“3” has no unit: add the unit: 3 min',
    'look (a glance at a load, or listening to it) takes some time: write at least 3 s',
    'with a labour rate of 0 no price can be weighed against minutes: write what an hour of work costs, like 60',
  ]);
});

test('when the file is no YAML, or is not there, then that is told and nothing thrown', async () => {
  expect(told('- probe\n')).not.toEqual([]);
  expect(told('probe: "2')).not.toEqual([]);
  expect('problems' in (await readCostsFile('no-such-file.yaml'))).toBe(true);
});
