/**
 * How likely each kind of fault is before any reading, and how long mending it takes.
 *
 * Only three coarse classes of odds are trusted: lamp with its socket, connections, everything else. In proven systems bad
 * connections lead, then blown protection, then active parts (Lessons in Electric Circuits V ch. 8 "Likely failures in proven
 * systems"); lamps fail far more often than switches and relays, those more than connectors and fuses as parts
 * (MIL-HDBK-217F N2, ground mobile). Wiring opens more often than it shorts; contacts hardly ever weld (same chapter).
 * What people did (wrong part, crossed pins, tapped wires) is rarer than what wears. The figures themselves are rounded:
 * common practice, no source.
 */
export const ODDS = {
  filament: 6,
  /** One unbranched run of joints and wires, however many joints are drawn in it. */
  connections: 6,
  shorts: 0.5,
  fuse: 2,
  wrongFuse: 0.1,
  switchContact: 2.5,
  relayContact: 2,
  coil: 0.7,
  welded: 0.4,
  flasher: 2,
  horn: 3,
  motor: 3,
  seized: 1,
  dragging: 0.8,
  shortedTurns: 0.2,
  heater: 2,
  solenoid: 1.5,
  load: 1,
  LED: 1,
  sender: 2,
  resistor: 0.5,
  drifted: 0.3,
  diode: 0.3,
  leakingDiode: 0.1,
  flat: 1,
  weakBattery: 0.5,
  /** Worn brushes, slack belt, regulator: taken together about as likely as a flat battery. */
  notCharging: 0.8,
  undercharging: 0.6,
  overcharging: 0.2,
  rectifier: 0.4,
  /** Modules fail far less often than what hangs on them. */
  module: 0.2,
  moduleOutput: 0.4,
  moduleInput: 0.2,
  moduleAwake: 0.5,
  terminator: 0.3,
  coupling: 1,
  wrongLamp: 0.4,
  filamentsTouching: 0.2,
  reversed: 0.1,
  /** Two wires of one loom, or neighbouring pins, per pair. */
  touching: 0.1,
  crossedPins: 0.05,
  /** Per stretch of wires that hang together. */
  tapped: 0.1,
} as const;

/** Minutes at the part once its place is open, and the usual money; common practice, no source. */
export const WORK = {
  clean: 6,
  tighten: 6,
  splice: 20,
  separate: 25,
  replace: 5,
  swapPins: 10,
} as const;
