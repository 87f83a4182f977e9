/**
 * False zeros: a dirty probe, a broken lead, a wrong range or a blown meter fuse also read 0 V, OL, 0 A.
 * A zero counts as proof only once the same meter mode was shown to work somewhere in the session (design §5).
 */
import type { MeterMode, Reading } from './events.js';

/** Under this many volts a voltmeter is taken to show nothing; common practice, no source. */
const NO_VOLTS = 0.05;
/** A clamp meter for direct current drifts by about this much after it was zeroed, amperes (from memory). */
const CLAMP_DRIFT = 0.05;
/** A clamp that shows this much is surely awake and around something that carries current (common practice, no source). */
const CLAMP_SHOWS = 0.5;
/** A finite reading under this shows the ohmmeter and its leads conduct; common practice, no source. */
const GOOD_OHMS = 10;

/** The meter mode a reading rests on; undefined for what is seen without a meter. */
export function modeOf(reading: Reading): MeterMode | undefined {
  switch (reading.kind) {
    case 'volts':
    case 'amps':
    case 'clamp':
    case 'scan':
    case 'test lamp':
      return reading.kind;
    case 'fuse lamp':
      return 'test lamp';
    case 'ohms':
    case 'continuity':
      return 'ohms';
    case 'load':
    case 'look':
      return undefined;
  }
}

/** True for a reading that a meter which does not work at all would also give. */
export function isZeroLike(reading: Reading): boolean {
  switch (reading.kind) {
    case 'volts':
      return Math.abs(reading.value.value) <= Math.max(reading.value.step, NO_VOLTS);
    case 'amps':
      return reading.value.value === 0;
    case 'clamp':
      return reading.value.value <= Math.max(reading.value.step, CLAMP_DRIFT);
    case 'scan':
      return reading.value === 'no answer';
    case 'ohms':
      return reading.value === 'OL';
    case 'continuity':
      return reading.value === 'no beep';
    case 'test lamp':
    case 'fuse lamp':
      return reading.value === 'off';
    case 'load':
    case 'look':
      return false;
  }
}

/** True for a reading that only a working meter could give, so that it proves its mode by itself. */
export function isLive(reading: Reading, nominalVolts: number): boolean {
  switch (reading.kind) {
    case 'volts':
      return Math.abs(reading.value.value) >= nominalVolts / 2;
    case 'amps':
      return reading.value.value > 0;
    case 'clamp':
      return reading.value.value >= CLAMP_SHOWS;
    case 'scan':
      return reading.value !== 'no answer';
    case 'ohms':
      return reading.value !== 'OL' && reading.value.value < GOOD_OHMS;
    case 'continuity':
      return reading.value === 'beep';
    case 'test lamp':
    case 'fuse lamp':
      return reading.value === 'lit';
    case 'load':
    case 'look':
      return false;
  }
}
