/** A second fuse is not sacrificed without a warning. Common practice in the trade, no source. */
import { describe, expect, test } from 'vitest';
import type { BlownFuse } from '../../src/diagnosis/diagnosis-types.js';
import { secondFuse } from '../../src/planning/second-fuse.js';
import type { Step } from '../../src/session/case.js';
import type { Action, Event } from '../../src/session/events.js';

const repair = { how: 'repair wire W5', minutes: 20, price: 2 };
const short = { id: 'W5 short', site: 'W5', part: 'W5', label: 'short to body metal: wire W5', repair };
const blown: readonly BlownFuse[] = [
  {
    fuse: 'F1',
    reasons: [
      { why: 'short', faults: [short], share: 0.6 },
      { why: 'old age', faults: [], share: 0.4 },
    ],
  },
];
const did = (action: Action): readonly Event[] => [{ type: 'did', action }];
const newFuse = did({ do: 'fit new', part: 'F1' });

describe('a fuse goes in', () => {
  test.each(['fit new', 'refit', 'fit known-good'] as const)(
    'when a short behind it is suspected and it is put in by %s then lamp and place are named, and a yes is asked',
    (how) => {
      const caution = secondFuse(did({ do: how, part: 'F1' }), blown, []);
      expect(caution).toMatchObject({ id: 'second-fuse', stop: true, refused: false });
      expect(caution!.text).toContain('(line: lamp F1)');
      expect(caution!.text).toContain('W5');
      expect(caution!.text).not.toMatch(/FUSE|PLACES/);
    },
  );

  test.each(['automatic', 'manual', 'electronic'] as const)(
    'when it closes again (%s) and is not fitted new then it is not called a fuse and no lamp goes in its place',
    (resets) => {
      const caution = secondFuse(did({ do: 'reset', part: 'F1' }), [{ ...blown[0]!, resets }], []);
      expect(caution).toMatchObject({ id: 'trip-again', stop: true, refused: false });
      expect(caution!.text).toContain('F1 is still suspected (W5)');
      expect(caution!.text).not.toMatch(/fuse|lamp F1|BREAKER|PLACES/);
    },
  );

  test('when the suspected place was repaired then nothing is said', () => {
    const action: Action = { do: 'repair', at: 'W5', how: 'new sleeve' };
    const repaired: readonly Step[] = [{ kind: 'action', number: 5, at: '', action }];
    expect(secondFuse(newFuse, blown, repaired)).toBeUndefined();
  });

  test.each([
    ['only old age is left', [{ fuse: 'F1', reasons: [{ why: 'old age', faults: [], share: 1 }] }]],
    ['another fuse is blown', [{ ...blown[0]!, fuse: 'F2' }]],
    ['none is blown', []],
  ] as const)('when %s then nothing is said', (_title, found) => {
    expect(secondFuse(newFuse, found, [])).toBeUndefined();
  });

  test('when the entry comes late then it is done already', () => {
    expect(
      secondFuse([{ type: 'did', action: { do: 'refit', part: 'F1' }, before: 3 }], blown, []),
    ).toBeUndefined();
  });
});
