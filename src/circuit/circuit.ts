/**
 * A checked circuit: what a circuit file means once every rule has passed.
 * Everything downstream (network, diagnosis, report) reads only this.
 */

/** A part of the drawing. Ids are the user's own (`F4`, `H1`, `X3`), compared without regard to case on input. */
export type PartId = string;

/**
 * The name of a place where a probe can go:
 * `F4.2` (harness side of a terminal), `F4.2i` (the same terminal on the item itself, for a part taken out),
 * `X3.1h` / `X3.1c` (harness and component side of a connector pin), `GP1` (ground stud), `SP2` (splice),
 * `bat+` / `bat-` (the battery posts), `body` (bare body metal).
 */
export type PointId = string;

export interface Circuit {
  readonly id: string;
  readonly title: string;
  /** One plain paragraph for the person who opens the circuit. */
  readonly about: string;
  /** System voltage: 6, 12, 24 … volts. */
  readonly nominalVolts: number;
  readonly controls: ReadonlyMap<string, Control>;
  readonly places: ReadonlyMap<string, Place>;
  readonly parts: ReadonlyMap<PartId, Part>;
  readonly wires: readonly Wire[];
  /** Points and wires nobody may probe (airbag lines, data lines), as written in the file. */
  readonly neverProbe: ReadonlySet<string>;
}

/** Anything a person operates: pedal, key, lever. */
export interface Control {
  readonly id: string;
  /** At least two; the first is the position at rest. */
  readonly positions: readonly string[];
  /** What operating it may do beyond this circuit; chooses the cautions that are shown. */
  readonly risk: ControlRisk | undefined;
  /** True where one person cannot hold it and probe at the same time. */
  readonly helper: boolean;
}

export type ControlRisk = 'motion' | 'cranks' | 'fuel' | 'fan';

/** Where you must be to reach something. */
export interface Place {
  readonly id: string;
  /** Minutes to open it the first time. */
  readonly minutes: number;
  readonly hazard: PlaceHazard | undefined;
}

/** Chooses the cautions shown before working there. */
export type PlaceHazard = 'airbag' | 'fan' | 'roadside' | 'battery' | 'hot';

export interface PartBase {
  readonly id: PartId;
  /** The part's plain name: "left stop lamp". */
  readonly label: string;
  /** Id of the place where the part sits. */
  readonly place: string;
  /** Price of a new item in the user's money; 0 = not stated. */
  readonly price: number;
  readonly neverProbe: boolean;
}

/** Terminals `30` (+) and `31` (−), DIN 72552. */
export interface Battery extends PartBase {
  readonly type: 'battery';
  /** Rested open-circuit volts. */
  readonly volts: number;
  /** Internal resistance, ohms. */
  readonly ohms: number;
}

/** Terminals `1` (feed) and `2`. */
export interface Fuse extends PartBase {
  readonly type: 'fuse';
  readonly amps: number;
}

/** A contact of a switch: its two terminals and the control positions in which it is closed. */
export interface SwitchContact {
  readonly between: readonly [string, string];
  readonly closed: readonly string[];
}

/** Terminals: those its contacts name. A change-over switch is two contacts that share a terminal. */
export interface Switch extends PartBase {
  readonly type: 'switch';
  readonly control: string;
  readonly contacts: readonly SwitchContact[];
}

/** Terminals `85`, `86` (coil), `30`, `87` and, for a change-over relay, `87a`. */
export interface Relay extends PartBase {
  readonly type: 'relay';
  readonly coilOhms: number;
  /** At or above this coil voltage it surely pulls in. */
  readonly pullInVolts: number;
  /** At or below this coil voltage it surely drops out. */
  readonly dropOutVolts: number;
  readonly changeOver: boolean;
}

export interface Filament {
  /** Feed terminal, the DIN number the circuit uses: `54`, `58`; `1` for a single-filament lamp. */
  readonly terminal: string;
  readonly watts: number;
  readonly volts: number;
}

/** Terminals: one per filament, and the common `31`. */
export interface Lamp extends PartBase {
  readonly type: 'lamp';
  readonly filaments: readonly Filament[];
}

/** Terminals `1` and `31`. */
export interface Horn extends PartBase {
  readonly type: 'horn';
  readonly amps: number;
  readonly volts: number;
}

/** Terminals `1` and `2`. */
export interface Motor extends PartBase {
  readonly type: 'motor';
  /** Running current at rated volts, amperes. */
  readonly amps: number;
  readonly volts: number;
  /** What it moves: chooses the cautions ("fan", "starter", "pump" …). */
  readonly drives: string;
}

/** Terminals `1` and `2`. */
export interface Resistor extends PartBase {
  readonly type: 'resistor';
  readonly ohms: number;
  readonly tolerance: number;
}

/** Terminals `A` (anode) and `K` (cathode). */
export interface Diode extends PartBase {
  readonly type: 'diode';
  readonly forwardVolts: number;
}

/** No terminals: wires end on the stud itself. */
export interface Ground extends PartBase {
  readonly type: 'ground';
}

/** No terminals: wires end in the splice itself. */
export interface Splice extends PartBase {
  readonly type: 'splice';
}

/** In-line connector: each pin has a harness side (`h`) and a component side (`c`). */
export interface Connector extends PartBase {
  readonly type: 'connector';
  readonly pins: readonly string[];
}

export type Part =
  Battery | Fuse | Switch | Relay | Lamp | Horn | Motor | Resistor | Diode | Ground | Splice | Connector;

export type PartType = Part['type'];

export interface Wire {
  /** As written, or `W1`, `W2` … in file order. */
  readonly id: string;
  readonly from: PointId;
  readonly to: PointId;
  /** Conductor cross-section, mm² (AWG sizes already converted). */
  readonly mm2: number;
  readonly metres: number;
  /** IEC 60757 letters, or empty. */
  readonly colour: string;
  /** Name of the loom it runs in, or empty. */
  readonly bundle: string;
  readonly neverProbe: boolean;
}

/** What to call a part in a sentence: `left stop lamp (H1)`, or `lamp H1` when it has no name of its own. */
export function calledOf(part: Part): string {
  return part.label.split(' ').includes(part.id) ? part.label : `${part.label} (${part.id})`;
}

/** Terminals of a part in file order, without the part id; none for ground points, splices and connectors. */
export function terminalsOf(part: Part): readonly string[] {
  switch (part.type) {
    case 'battery':
      return ['30', '31'];
    case 'fuse':
    case 'motor':
    case 'resistor':
      return ['1', '2'];
    case 'switch':
      return [...new Set(part.contacts.flatMap((contact) => contact.between))];
    case 'relay':
      return part.changeOver ? ['30', '85', '86', '87', '87a'] : ['30', '85', '86', '87'];
    case 'lamp':
      return [...part.filaments.map((filament) => filament.terminal), '31'];
    case 'horn':
      return ['1', '31'];
    case 'diode':
      return ['A', 'K'];
    case 'ground':
    case 'splice':
    case 'connector':
      return [];
  }
}

/** Every load a person can watch, as `PART` or `PART.TERMINAL`; relays are listened to. */
export function loadsOf(part: Part): readonly string[] {
  switch (part.type) {
    case 'lamp':
      return part.filaments.length === 1
        ? [part.id]
        : part.filaments.map((filament) => `${part.id}.${filament.terminal}`);
    case 'horn':
    case 'motor':
    case 'relay':
      return [part.id];
    default:
      return [];
  }
}
