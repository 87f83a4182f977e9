/**
 * Groups of suspects that no test within reach tells apart, though different repairs mend them: what to look at by eye, and
 * which further access would split them.
 */
import type { Alike, Diagnosis, FaultInfo, Suspect } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case } from '../session/case.js';
import { BLANK, type Candidate } from './candidate.js';
import { candidates } from './candidates.js';
import { conditionsOf, hasFailed } from './condition.js';
import { lookHere } from './look-here.js';
import { outOfReach, pointsAt } from './reach.js';
import type { Outlook } from './weigh.js';
import { Scales } from './weigh.js';

/** Classes by which the bands of two suspects may differ and a person still could not tell them apart. */
const SAME = 0.75;
const MOST_LOOKS = 8;
const MOST_POINTS = 6;

/** Groups of two or more, the likeliest first; none when nothing was found wrong or every repair can be told apart. */
export function alike(bench: Workbench, session: Case, diagnosis: Diagnosis): Alike[] {
  if (diagnosis.groups.length < 2 || !hasFailed(bench, session, diagnosis)) return [];
  const scales = new Scales(bench, session, diagnosis, { enough: 1, even: true, apart: 'repairs' });
  const ranked = rankedSuspects(diagnosis);
  const numbers = [...new Set(scales.likely.map(({ suspect }) => suspect))];
  const outlooks = new Hulls(scales, numbers.length);
  const conditions = conditionsOf(bench, session, diagnosis);
  let classes: number[][] = [numbers];
  for (const candidate of candidates(bench, diagnosis, conditions)) {
    if (classes.every((members) => members.length < 2)) break;
    if (candidate.wiggle !== undefined) continue;
    const hulls = outlooks.of(candidate);
    if (hulls !== undefined) classes = classes.flatMap((members) => split(members, hulls));
  }
  return classes
    .map((members) => members.map((number) => ranked[number]!))
    .filter((suspects) => new Set(suspects.map(repairOf)).size > 1)
    .sort((a, b) => shareOf(b) - shareOf(a))
    .map((suspects): Alike => {
      const faults = suspects.flatMap((suspect) => suspect.faults);
      const looks = new Set(faults.map((fault) => lookHere(bench.circuit, fault)));
      return {
        faults,
        lookHere: [...looks].slice(0, MOST_LOOKS),
        access: accessFor(
          bench,
          conditions.map(({ setUp }) => setUp),
          suspects.map((one) => ranked.indexOf(one)),
          outlooks,
          faults,
        ),
      };
    });
}

interface Hull {
  readonly from: number;
  readonly to: number;
}

/** From where to where the reading of each suspect may fall, over its severities. */
class Hulls {
  constructor(
    private readonly scales: Scales,
    private readonly count: number,
  ) {}

  of(candidate: Candidate): readonly Hull[] | undefined {
    const outlook: Outlook | undefined = this.scales.outlook(candidate);
    if (outlook === undefined) return undefined;
    const hulls = Array.from({ length: this.count }, () => ({ from: Infinity, to: -Infinity }));
    this.scales.likely.forEach(({ suspect }, i) => {
      const version = this.scales.versionOf[i]!;
      const hull = hulls[suspect]!;
      hull.from = Math.min(hull.from, outlook.from[version]!);
      hull.to = Math.max(hull.to, outlook.to[version]!);
    });
    return hulls;
  }
}

/** Parts a class where bands differ: each member joins the first one it cannot be told from. */
function split(members: readonly number[], hulls: readonly Hull[]): number[][] {
  const parts: number[][] = [];
  for (const member of members) {
    const mine = hulls[member]!;
    const part = parts.find(([first]) => isSame(hulls[first!]!, mine));
    if (part === undefined) parts.push([member]);
    else part.push(member);
  }
  return parts;
}

function isSame(one: Hull, other: Hull): boolean {
  return Math.abs(one.from - other.from) <= SAME && Math.abs(one.to - other.to) <= SAME;
}

function rankedSuspects(diagnosis: Diagnosis): Suspect[] {
  const all = diagnosis.groups.flatMap(({ suspects }) => suspects);
  return all.sort((a, b) => b.share - a.share);
}

function repairOf({ faults }: Suspect): string {
  return faults.map(({ repair }) => repair.how).join(' and ');
}

function shareOf(suspects: readonly Suspect[]): number {
  return suspects.reduce((sum, { share }) => sum + share, 0);
}

/** Points left alone where volts would differ, and bare joints between two places where no probe reaches. */
function accessFor(
  bench: Workbench,
  setUps: readonly Candidate['setUp'][],
  members: readonly number[],
  outlooks: Hulls,
  faults: readonly FaultInfo[],
): string[] {
  const { circuit, network } = bench;
  const points = [...circuit.parts.values()].flatMap((part) =>
    pointsAt(part).flatMap((point) => {
      const why = outOfReach(circuit, part.id) ?? outOfReach(circuit, point);
      return why === undefined || !network.points.has(point) ? [] : [{ point, why }];
    }),
  );
  const told = points.filter(({ point }) =>
    setUps.some((setUp) => {
      const reading = { kind: 'volts', red: point, black: 'bat-', value: BLANK } as const;
      const hulls = outlooks.of({ line: '', words: '', setUp, reading, bare: 'probe', at: [point] });
      return hulls !== undefined && split(members, hulls).length > 1;
    }),
  );
  const joints = [...new Set(faults.map(({ site }) => site))].filter((site) => site.includes('/'));
  return [
    ...told.map(({ point, why }) => `volts at ${point} would tell (${why}: by the maker's procedure only)`),
    ...joints.map((site) => {
      const [at, wire] = site.split('/');
      return `the bare crimp of ${wire} at ${at}: a drop from there to ${at} under load would tell`;
    }),
  ].slice(0, MOST_POINTS);
}
