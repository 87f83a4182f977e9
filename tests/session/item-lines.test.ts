/** Lines about items: swaps, known-good parts, lamps in place of fuses, resets and waits. */
import { expect, test } from 'vitest';
import { parseLine } from '../../src/session/parse-line.js';
import { eventsIn, kinds, recordKinds } from './kinds-circuit.js';

const actions = (line: string, after: readonly string[] = []) =>
  eventsIn(line, recordKinds(after)).map((event) => (event.type === 'did' ? event.action : event));

test.each<[string, readonly object[], after?: readonly string[]]>([
  ['swap H1 H2', [{ do: 'swap', parts: ['H1', 'H2'] }]],
  ['swap h1 with h2', [{ do: 'swap', parts: ['H1', 'H2'] }]],
  ['exchange F1 and F2', [{ do: 'swap', parts: ['F1', 'F2'] }]],
  ['knowngood H1', [{ do: 'fit known-good', part: 'H1' }]],
  ['known-good H1', [{ do: 'fit known-good', part: 'H1' }]],
  [
    'known good H1 H2',
    [
      { do: 'fit known-good', part: 'H1' },
      { do: 'fit known-good', part: 'H2' },
    ],
  ],
  ['in H1', [{ do: 'refit', part: 'H1' }], ['knowngood H1']],
  ['lamp F1', [{ do: 'lamp in place', part: 'F1' }]],
  ['lamp in place of F1', [{ do: 'lamp in place', part: 'F1' }]],
  ['lamp FL1', [{ do: 'lamp in place', part: 'FL1' }]],
  ['lamp F9', [{ do: 'lamp in place', part: 'F9' }]],
  ['unlamp F1', [{ do: 'remove lamp', part: 'F1' }], ['lamp F1']],
  [
    'unlamp',
    [
      { do: 'remove lamp', part: 'F2' },
      { do: 'remove lamp', part: 'F1' },
    ],
    ['lamp F2 F1'],
  ],
  ['reset F9', [{ do: 'reset', part: 'F9' }]],
  ['reset A1', [{ do: 'reset', part: 'A1' }]],
  ['wait 30', [{ do: 'wait', minutes: 30 }]],
  ['wait for 30 min', [{ do: 'wait', minutes: 30 }]],
  ['wait 1,5 h', [{ do: 'wait', minutes: 90 }]],
])('when %j is typed then it is understood', (line, expected, after) => {
  expect(actions(line, after)).toEqual(expected);
});

test.each<[line: string, message: RegExp, mend: RegExp, after?: readonly string[]]>([
  ['swap H1', /part is missing/, /H2|For example/],
  ['swap H1 H2 H3', /one word too many/, /Leave it out/],
  ['swap H1 H1', /cannot change places with itself/, /two parts/],
  ['swap H1 H3', /not alike: filaments .*watts 21.* against .*watts 5/, /knowngood H1/],
  ['swap F1 F3', /not alike: amps 10 against 20/, /like for like/],
  ['swap H1 F1', /H1 is a lamp, F1 a fuse/, /like for like/],
  ['swap S1 S2', /their contacts differ/, /like for like/],
  ['swap GP1 SP1', /GP1 is a ground and has no item/, /like for like/],
  ['swap H1 H2', /H2 is out/, /in H2/, ['out H2']],
  ['swap H1 H2', /H1 holds a known-good item/, /in H1/, ['knowngood H1']],
  ['swap F1 F2', /test lamp hangs in place of F2/, /unlamp F2/, ['lamp F2']],
  ['knowngood H1', /fitted at H1 already/, /in H1/, ['knowngood H1']],
  ['knowngood H1', /H1 holds the item of H2/, /swap H1 H2.*knowngood H1/, ['swap H1 H2']],
  ['knowngood GP1', /GP1 is a ground/, /clean/],
  ['new H2', /H2 holds the item of H1/, /swap H2 H1.*new H2/, ['swap H1 H2']],
  ['new F1', /test lamp hangs in place of F1/, /unlamp F1/, ['lamp F1']],
  ['in F1', /test lamp hangs in place of F1/, /unlamp F1/, ['lamp F1']],
  ['in H1', /H1 is not out/, /out H1/],
  ['lamp H1', /H1 is no fuse/, /testlamp/],
  ['lamp F1', /in place of F1 already/, /fuselamp F1/, ['lamp F1']],
  ['unlamp', /No test lamp hangs/, /lamp F4/],
  ['unlamp F1', /No test lamp hangs in place of F1/, /lamp F1/],
  ['reset F1', /F1 has nothing to reset/, /new F1/],
  ['reset F10', /F10 closes again by itself/, /wait 5/],
  ['wait', /how long/, /wait 30/],
  ['wait a bit', /"a bit" is not a time/, /wait 30/],
  ['wait 0', /takes some minutes/, /wait 30/],
  ['wait 30', /everything off, but key is on/, /rest/, ['key on']],
  ['wait 30', /the engine is running/, /rest/, ['engine running']],
])('when %j is typed then it is refused in words that help', (line, message, mend, after = []) => {
  expect(parseLine(line, kinds, recordKinds(after))).toMatchObject({
    kind: 'error',
    message: expect.stringMatching(message) as string,
    mend: expect.stringMatching(mend) as string,
  });
});
