/** A module while it is being compiled: what its inputs, outputs and data pair are tied to. */
import type { Module } from '../circuit/circuit.js';
import type { NetworkBuilder } from './network-builder.js';
import type { CoilCond, SingleCond } from './network.js';

/** What the parts of a module share. */
export interface ModuleAt {
  readonly builder: NetworkBuilder;
  readonly part: Module;
  readonly plus: number;
  readonly minus: number;
  /** It has supply volts. */
  readonly powered: CoilCond;
  /** Not asleep for sure, and asleep for sure; undefined where it never sleeps or does not say. */
  readonly awake: SingleCond | undefined;
  readonly asleep: SingleCond | undefined;
}
