import { expect, test } from 'vitest';
import { rowsOf } from '../../src/planning/ahead.js';

const spans = (list: readonly (readonly [number, number])[]) => ({
  from: Float64Array.from(list, ([from]) => from),
  to: Float64Array.from(list, ([, to]) => to),
});

test('when bands lie apart then each version has a class of its own', () => {
  expect(
    rowsOf(
      spans([
        [5, 6],
        [0, 1],
        [2, 4],
      ]),
      false,
    ),
  ).toEqual([[[2, 1]], [[0, 1]], [[1, 1]]]);
});

test('when bands hang together then the versions are one class', () => {
  expect(
    rowsOf(
      spans([
        [0, 2],
        [1, 3],
      ]),
      false,
    ),
  ).toEqual([[[0, 1]], [[0, 1]]]);
});

test('when a band reaches over a cut then its version may show either, by how far it reaches', () => {
  const [, wide] = rowsOf(
    spans([
      [0, 1],
      [0, 4],
      [2, 3],
      [2, 4],
    ]),
    false,
  );
  expect(wide).toEqual([
    [0, expect.closeTo(0.5, 10)],
    [1, expect.closeTo(0.5, 10)],
  ]);
});

test('when a band only touches the next class then it stays in its own', () => {
  const rows = rowsOf(
    spans([
      [0, 1],
      [0, 2.2],
      [2, 3],
    ]),
    false,
  );
  expect(rows[1]).toEqual([[0, 1]]);
});

test('when a place is wiggled then the bad one shows it every second time and the others never', () => {
  const rows = rowsOf(
    spans([
      [0, 2],
      [1, 2],
    ]),
    true,
  );
  expect(rows).toEqual([
    [
      [0, 0.5],
      [1, 0.5],
    ],
    [[1, 1]],
  ]);
});
