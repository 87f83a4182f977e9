/**
 * Published diagnosis examples through the cover code. Beside each: the source, and how its figures came here.
 * SEEN = read in a public copy of the source or of slides on it; MEMORY = recalled, not checked against the paper;
 * DERIVED = recomputed independently from the inputs.
 */
import { describe, expect, it } from 'vitest';
import { irredundantCovers, minimalHittingSets, minimumCover } from '../../src/diagnosis/covers/covers.js';

/** Minimal hitting sets of named sets, as sorted words: `A2+M2`. */
function hittingSets(sets: readonly (readonly string[])[]): string[] {
  const names = [...new Set(sets.flat())].sort();
  return minimalHittingSets(sets.map((set) => set.map((name) => names.indexOf(name))))
    .map((hit) => hit.map((i) => names[i]!).join('+'))
    .sort();
}

const words = (line: string): string[] => line.split(' ').sort();

describe('polybox, de Kleer and Williams, "Diagnosing multiple faults", Artificial Intelligence 32 (1987)', () => {
  // X = A·C (M1), Y = B·D (M2), Z = C·E (M3), F = X + Y (A1), G = Y + Z (A2); inputs 3, 2, 2, 3, 3. F = 10 and G = 12
  // observed where 12 and 12 are right. Set-up and conflicts SEEN (university slides on the paper); diagnoses DERIVED.
  it('when F is 10 and G is 12 then the diagnoses are A1, M1, A2 with M2, M2 with M3', () => {
    const conflicts = [
      ['A1', 'M1', 'M2'],
      ['A1', 'A2', 'M1', 'M3'],
    ];
    expect(hittingSets(conflicts)).toEqual(words('A1 M1 A2+M2 M2+M3'));
  });

  // After a probe of X. Conflicts and diagnoses DERIVED.
  it('when X is then probed as 4 only M1 is left, and when as 6 then A1 or a pair', () => {
    expect(hittingSets([['M1']])).toEqual(['M1']);
    const conflicts = [
      ['A1', 'M2'],
      ['A1', 'A2', 'M3'],
    ];
    expect(hittingSets(conflicts)).toEqual(words('A1 A2+M2 M2+M3'));
  });
});

describe('full adder, Reiter, "A theory of diagnosis from first principles", Artificial Intelligence 32 (1987)', () => {
  // Inputs 1, 0, carry 1; observed sum 1, carry 0. Inputs and outputs SEEN (an open-source copy of the example);
  // conflicts and diagnoses DERIVED, the same as the paper's from MEMORY.
  it('when sum and carry are both wrong then the diagnoses are X1, X2 with A2, X2 with O1', () => {
    const conflicts = [
      ['X1', 'X2'],
      ['X1', 'A2', 'O1'],
    ];
    expect(hittingSets(conflicts)).toEqual(words('X1 A2+X2 O1+X2'));
  });

  // The family of the hitting-set tree figure in the same paper: input MEMORY, answer DERIVED.
  it('when the family of the hitting-set tree is searched then it has six minimal hitting sets', () => {
    const family = [
      [2, 4, 5],
      [1, 2, 3],
      [1, 3, 5],
      [2, 4, 6],
      [2, 4],
      [2, 3, 5],
      [1, 6],
    ];
    expect(minimalHittingSets(family)).toEqual([
      [1, 2],
      [1, 3, 4],
      [1, 4, 5],
      [2, 3, 6],
      [2, 5, 6],
      [3, 4, 6],
    ]);
  });
});

describe('Greiner, Smith and Wilkerson, "A correction to the algorithm in Reiter\'s theory of diagnosis", AI 41 (1989)', () => {
  // Input MEMORY, answer DERIVED. A hitting-set tree that relabels and prunes loses {a, b} in this order.
  it('when the sets come in any order then both minimal hitting sets are found', () => {
    const family = ['ab', 'bc', 'ac', 'bd', 'b'].map((set) => [...set]);
    for (const order of permutations(family)) expect(hittingSets(order)).toEqual(['a+b', 'b+c']);
  });
});

describe('covering matrix, Reggia, Nau and Wang (1983); Peng and Reggia (1986)', () => {
  // Which disorder causes which finding: matrix MEMORY; the covers DERIVED. Disorder d1 is set 0, and so on.
  const causes = ['14', '134', '13', '16', '234', '23', '25', '456', '25'];

  function covers(findings: string): { minimum: string[]; irredundant: string[] } {
    const sets = causes.map((list) =>
      [...list].flatMap((m) => (findings.includes(m) ? [findings.indexOf(m)] : [])),
    );
    const found = irredundantCovers(findings.length, sets, findings.length);
    expect(found.complete).toBe(true);
    const fewest = minimumCover(findings.length, sets)!.cost;
    const name = (cover: readonly number[]): string => cover.map((s) => `d${s + 1}`).join('');
    return {
      minimum: found.covers.filter((cover) => cover.length === fewest).map(name),
      irredundant: found.covers.map(name),
    };
  }

  it('when findings 1, 4 and 5 are present then 8 covers are minimum and 12 irredundant', () => {
    const { minimum, irredundant } = covers('145');
    expect(minimum).toEqual(['d1d7', 'd1d8', 'd1d9', 'd2d7', 'd2d8', 'd2d9', 'd3d8', 'd4d8']);
    expect(irredundant).toEqual([...minimum, 'd3d5d7', 'd3d5d9', 'd4d5d7', 'd4d5d9']);
  });

  it('when findings 1 and 4 are present then d1 or d2 alone is enough and 6 covers are irredundant', () => {
    const { minimum, irredundant } = covers('14');
    expect(minimum).toEqual(['d1', 'd2']);
    expect(irredundant).toHaveLength(6);
  });

  it('when findings 1, 4, 5 and 6 are present then d8 is in every minimum cover and 10 covers are irredundant', () => {
    const { minimum, irredundant } = covers('1456');
    expect(minimum).toEqual(['d1d8', 'd2d8', 'd3d8', 'd4d8']);
    expect(irredundant).toHaveLength(10);
  });
});

describe('three bulbs on a ladder, Struss and Dressler, "Physical negation", IJCAI (1989)', () => {
  // Source S, bulbs B1 to B3, wires W1/W2 to the first rung, W3/W4 to the second, W5/W6 to the third; B1 and B2 dark, B3
  // lit. Example and the number 22 MEMORY; conflicts of the healthy models and the 22 sets DERIVED.
  it('when only the far bulb is lit then 22 diagnoses are minimal while nothing is known of how parts fail', () => {
    const conflicts = [
      words('S W1 W2 B1'),
      words('S W1 W2 W3 W4 B2'),
      words('B3 W5 W6 B2'),
      words('B3 W5 W6 W3 W4 B1'),
    ];
    const pairs = words('B1+B2 B3+S B3+W1 B3+W2 S+W5 S+W6 W1+W5 W1+W6 W2+W5 W2+W6');
    const triples = ['W3', 'W4'].flatMap((middle) => [
      ...['B3', 'W5', 'W6'].map((far) => ['B1', far, middle].sort().join('+')),
      ...['S', 'W1', 'W2'].map((near) => ['B2', near, middle].sort().join('+')),
    ]);
    const found = hittingSets(conflicts);
    expect(found).toHaveLength(22);
    expect(found).toEqual([...pairs, ...triples].sort());
  });
});

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((item, i) =>
    permutations([...items.slice(0, i), ...items.slice(i + 1)]).map((rest) => [item, ...rest]),
  );
}
