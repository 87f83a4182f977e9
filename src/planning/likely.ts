/** What may be at fault, as versions to predict with: each suspect at a few severities of what still fits, with its weight. */
import type { Diagnosis, Suspect } from '../diagnosis/diagnosis-types.js';
import type { Fault } from '../diagnosis/faults.js';
import { canBlow } from '../diagnosis/faults.js';
import type { Scale } from '../diagnosis/severity.js';
import { isOpen } from '../diagnosis/severity.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { AppliedFault } from '../network/solver-types.js';

/** One suspect at chosen severities: what a forecast is made for. */
export interface Version {
  /** Equal for versions that no probe can tell apart, so that they share one solve. */
  readonly key: string;
  readonly faults: readonly AppliedFault[];
  /** Fuses it has blown before the test, bit i = network.fuses[i]. */
  readonly blown: number;
}

export interface Likely extends Version {
  /** Number of its repair group in the diagnosis. */
  readonly group: number;
  /** Number of its suspect, by falling share. */
  readonly suspect: number;
  /** Parts and sites it belongs to. */
  readonly at: readonly string[];
  readonly steady: boolean;
  /** Short name of what would be at fault: a part, or a contact of one. */
  readonly name: string;
  readonly weight: number;
  /**
   * The same with its contacts as good as new and open: at an ohmmeter's current a contact may be anything between, whatever it is
   * under load, so that an ohms reading tells nothing of it. Undefined where no fault of it is a contact's.
   */
  readonly atMeter: readonly [good: Version, open: Version] | undefined;
}

/** Suspects beyond these do not steer the choice, while others do. */
export const MOST_SUSPECTS = 250;
/** The same where each suspect is several faults at once: their versions are solved anew in every set-up. */
export const MOST_PAIRS = 40;
/** From so many suspects on each has one version only. */
const MANY = 150;
/** Severities tried where a range is known, and where none is. */
const PICKED = 5;
const PICKED_FREELY = 8;
/** Severities within this factor read alike. */
const NARROW = 1.6;

/** What the list is made with. */
export interface Judgement {
  /** Number of findings so far that it does not agree with. */
  readonly misfits: (version: Version) => number;
  /** Fuse states that a version may have left behind, as masks. */
  readonly blownBy: (version: Version) => readonly number[];
}

/** @param enough share of the weight after which the rest is left out, 0 to 1 */
export function likelyFaults(
  bench: Workbench,
  diagnosis: Diagnosis,
  enough: number,
  judgement: Judgement,
): Likely[] {
  const byId = faultsById(bench);
  const ranked = diagnosis.groups.flatMap(({ suspects }, group) =>
    suspects.map((suspect) => ({ suspect, group })),
  );
  ranked.sort((a, b) => b.suspect.share - a.suspect.share);
  const wanted: { suspect: Suspect; group: number; faults: readonly Fault[]; versions: Version[] }[] = [];
  let covered = 0;
  for (const [number, { suspect, group }] of ranked.entries()) {
    const most = suspect.faults.length > 1 ? MOST_PAIRS : MOST_SUSPECTS;
    if (covered > enough || number >= most) break;
    covered += suspect.share;
    const faults = suspect.faults.map(({ id }) => byId.get(id)!);
    const versions = versionsOf(bench, faults, suspect.severities, ranked.length > MANY, judgement);
    wanted.push({ suspect, group, faults, versions });
  }
  return wanted.flatMap(({ suspect, group, faults, versions }, number) =>
    versions.map((version) => ({
      ...version,
      group,
      suspect: number,
      at: faults.flatMap(({ part, site }) => [part, site]),
      steady: suspect.course === 'steady',
      name: faults.map((fault) => shortName(bench, fault)).join(' + '),
      weight: suspect.share / versions.length,
      atMeter: faults.some(({ contact }) => contact)
        ? ([
            withContacts(bench, version, faults, GOOD),
            withContacts(bench, version, faults, Infinity),
          ] as const)
        : undefined,
    })),
  );
}

/** Ohms of a contact that is as good as new. */
const GOOD = 1e-3;

function withContacts(bench: Workbench, version: Version, faults: readonly Fault[], ohms: number): Version {
  const applied = version.faults.map((fault, i) =>
    faults[i]!.contact && fault.kind === 'series' ? { ...fault, ohms } : fault,
  );
  // What else tells versions apart stays in the name: severities of other faults, and what was blown.
  const key = applied
    .map((fault, i) =>
      fault === version.faults[i] ? version.key : versionKey(bench, faults[i]!, fault, ohms),
    )
    .join(' + ');
  return {
    key: version.blown === 0 ? key : `${key} ${version.blown}`,
    faults: applied,
    blown: version.blown,
  };
}

/** A suspect's severities that miss the fewest findings, the mildest first. @param one only the middle one of them */
export function versionsOf(
  bench: Workbench,
  faults: readonly Fault[],
  ranges: Suspect['severities'] | readonly { readonly low: number; readonly high: number }[],
  one: boolean,
  { misfits, blownBy }: Judgement,
): Version[] {
  const chosen = faults.map((fault, i) => {
    const range = ranges[i];
    return severitiesOf(fault.scale, range?.low, range?.high);
  });
  const most = Math.max(...chosen.map((list) => list.length));
  const whole = Array.from({ length: most }, (_, k): Version => {
    const at = chosen.map((list) => list[Math.round((k * (list.length - 1)) / Math.max(1, most - 1))]!);
    const applied = faults.map((fault, i) => fault.apply(at[i]!));
    const key = applied.map((fault, i) => versionKey(bench, faults[i]!, fault, at[i]!)).join(' + ');
    return { key, faults: applied, blown: 0 };
  });
  const all = faults.some(canBlow)
    ? blownAlong(whole, blownBy).flatMap((masks, k) =>
        masks.map((blown) => ({ ...whole[k]!, blown, key: `${whole[k]!.key} ${blown}` })),
      )
    : whole;
  // Some always stay: a finding that this coarse comparison cannot follow must not take the suspect away.
  let left = leastMisfit(all, misfits);
  if (faults.some(canBlow) && misfits(left[0]!) > 0) {
    // It may have blown a fuse that at nominal values would have held.
    const more = left.flatMap((version) => bench.network.fuses.map((_, bit) => alsoBlown(version, bit)));
    left = leastMisfit([...left, ...more], misfits);
  }
  const middle = left[left.length >> 1]!;
  return one ? [middle] : [...new Set([left[0]!, middle, left.at(-1)!])];
}

/** The fuses each may have blown, in the order of severity: between two that leave the same behind it is not worked out again. */
function blownAlong(versions: readonly Version[], blownBy: Judgement['blownBy']): (readonly number[])[] {
  const found = versions.map((): readonly number[] => []);
  const between = (from: number, to: number): void => {
    if (found[from]!.join() === found[to]!.join()) {
      found.fill(found[from]!, from + 1, to);
      return;
    }
    const middle = (from + to) >> 1;
    if (middle === from) return;
    found[middle] = blownBy(versions[middle]!);
    between(from, middle);
    between(middle, to);
  };
  const last = versions.length - 1;
  found[0] = blownBy(versions[0]!);
  found[last] = blownBy(versions[last]!);
  between(0, last);
  return found;
}

function leastMisfit(versions: readonly Version[], misfits: Judgement['misfits']): Version[] {
  const off = versions.map(misfits);
  const least = Math.min(...off);
  return versions.filter((_, i) => off[i] === least);
}

function alsoBlown(version: Version, bit: number): Version {
  const blown = version.blown | (1 << bit);
  return { ...version, blown, key: `${version.key} and ${blown}` };
}

/** Severities of what still fits, from a fixed choice, so that the next call finds them solved. */
export function severitiesOf(scale: Scale, from: number | undefined, to: number | undefined): number[] {
  const { edges, unit } = scale;
  if (unit === 'none') return [0];
  const low = from === undefined || Number.isNaN(from) ? edges[0]! : from;
  const high = to === undefined || Number.isNaN(to) ? edges.at(-1)! : to;
  const inside = edges.filter((edge) => edge >= low * 0.999 && edge <= high * 1.001);
  const wide = inside.length >= 2 && inside.at(-1)! > NARROW * inside[0]!;
  const picked = wide
    ? spread(inside, from === undefined ? PICKED_FREELY : PICKED)
    : [fine(low > 0 ? Math.sqrt(low * Math.max(low, high)) : (low + high) / 2)];
  const opened = picked.map((severity) => (unit === 'ohm' && isOpen(severity) ? Infinity : severity));
  return [...new Set(opened)];
}

/** So many of a list, evenly, with both ends. */
function spread(list: readonly number[], count: number): number[] {
  return Array.from({ length: count }, (_, k) => list[Math.round((k * (list.length - 1)) / (count - 1))]!);
}

/** Twelve to the decade. */
function fine(severity: number): number {
  return severity <= 0 ? severity : 10 ** (Math.round(12 * Math.log10(severity)) / 12);
}

function versionKey(bench: Workbench, fault: Fault, applied: AppliedFault, severity: number): string {
  if (applied.kind !== 'series') return `${fault.id} ${severity}`;
  return `series ${standsFor(bench)[applied.element]} ${applied.ohms}`;
}

const representatives = new WeakMap<Workbench, Int32Array>();

/**
 * For each element the one that stands for it: wires and joints in a row with no probe point between them, so that added ohms
 * read the same in either.
 */
export function standsFor(bench: Workbench): Int32Array {
  const known = representatives.get(bench);
  if (known !== undefined) return known;
  const { elements, points, nodeNames } = bench.network;
  const touching = Array.from({ length: nodeNames.length }, (): number[] => []);
  for (const { index, a, b } of elements) {
    touching[a]!.push(index);
    touching[b]!.push(index);
  }
  const named = new Set(points.values());
  const stands = Int32Array.from(elements, ({ index }) => index);
  const rootOf = (index: number): number => (stands[index] === index ? index : rootOf(stands[index]!));
  touching.forEach(([first, second, more], node) => {
    if (named.has(node) || second === undefined || more !== undefined) return;
    if ([first!, second].some((index) => elements[index]!.owner === 'item')) return;
    const [one, other] = [rootOf(first!), rootOf(second)];
    stands[Math.max(one, other)] = Math.min(one, other);
  });
  for (const { index } of elements) stands[index] = rootOf(index);
  representatives.set(bench, stands);
  return stands;
}

const byBench = new WeakMap<Workbench, ReadonlyMap<string, Fault>>();

export function faultsById(bench: Workbench): ReadonlyMap<string, Fault> {
  let known = byBench.get(bench);
  if (known === undefined)
    byBench.set(bench, (known = new Map(bench.faults.map((fault) => [fault.id, fault]))));
  return known;
}

function shortName(bench: Workbench, fault: Fault): string {
  const type = bench.circuit.parts.get(fault.part)?.type;
  const whole =
    fault.owner !== 'position' || ['connector', 'ground', 'splice', 'battery'].includes(type ?? '');
  return whole ? fault.part : `contact ${fault.site}`;
}
