/** What a person wants drawn, after the questions. */
import type { OwnLoad } from './loads.js';

export interface Wish {
  readonly title: string;
  /** Of the system: 6, 12, 24. */
  readonly volts: number;
  readonly loads: readonly OwnLoad[];
  /** Name of the control: `light switch`. */
  readonly control: string;
  /** The first is at rest; in all others the loads are on. */
  readonly positions: readonly string[];
  /** One person cannot hold it and probe at the same time. */
  readonly helper: boolean;
  readonly side: 'feed' | 'ground';
  readonly through: 'switch' | 'relay' | 'module';
  readonly fuseAmps: number;
  /** What else hangs on the fuse. */
  readonly also: OwnLoad | undefined;
  readonly live: 'always' | 'key';
  /** Ground points the loads share out. */
  readonly grounds: number;
  readonly connectors: 'none' | 'loom' | 'loads' | 'both';
  /** From the switch to the loads. */
  readonly metres: number;
  /** Of the long wires. */
  readonly mm2: number;
}

/** Amperes when everything is on. */
export function ampsOf(loads: readonly OwnLoad[]): number {
  return loads.reduce((sum, { amps }) => sum + amps, 0);
}
