/** What a part puts between its terminals, coarsely: enough to follow current without solving anything (see nets.ts). */
import { terminalsOf, type Part } from './circuit.js';
import { BODY_METAL } from './points.js';

export interface BranchSketch {
  readonly kind: 'fuse' | 'contact' | 'load' | 'passive';
  /** Points at its two ends. */
  readonly ends: readonly [string, string];
  readonly amps?: number;
  readonly control?: string;
  readonly closed?: readonly string[];
}

export function branchesOf(part: Part): BranchSketch[] {
  const ends = (from: string, to: string) => [`${part.id}.${from}`, `${part.id}.${to}`] as const;
  switch (part.type) {
    case 'fuse':
    case 'fusible link':
    case 'breaker':
      return [{ kind: 'fuse', ends: ends('1', '2') }];
    case 'switch':
      return part.contacts.map(({ between: [from, to], closed }) => ({
        kind: 'contact',
        ends: ends(from, to),
        control: part.control,
        closed,
      }));
    case 'relay': {
      const control = `relay:${part.id}`;
      const made: BranchSketch[] = [
        { kind: 'load', ends: ends('86', '85'), amps: 0 },
        { kind: 'contact', ends: ends('30', '87'), control, closed: ['on'] },
      ];
      if (part.changeOver) made.push({ kind: 'contact', ends: ends('30', '87a'), control, closed: ['off'] });
      return made;
    }
    case 'coupling':
      return [
        {
          kind: 'contact',
          ends: [part.frame, BODY_METAL],
          control: part.control,
          closed: part.closed,
        },
      ];
    case 'lamp':
      return part.filaments.map(({ terminal, watts, volts }) => ({
        kind: 'load',
        ends: ends(terminal, '31'),
        amps: watts / volts,
      }));
    case 'LED lamp':
      return [{ kind: 'load', ends: ends('1', '31'), amps: part.watts / part.volts }];
    case 'solenoid':
      return [{ kind: 'load', ends: ends('1', '2'), amps: part.volts / part.ohms }];
    case 'horn':
    case 'buzzer':
    case 'load':
    case 'heater':
    case 'motor': {
      const [from, to] = terminalsOf(part) as [string, string];
      return [{ kind: 'load', ends: ends(from, to), amps: part.amps }];
    }
    case 'resistor':
    case 'sender':
    case 'thermistor':
      return [{ kind: 'passive', ends: ends('1', '2') }];
    case 'resistor pack':
      return part.resistors.map(({ between: [from, to] }) => ({ kind: 'passive', ends: ends(from, to) }));
    case 'diode':
      return [{ kind: 'passive', ends: ends('A', 'K') }];
    case 'flasher':
      return [
        { kind: 'passive', ends: ends('49', '49a') },
        ...(part.terminals.includes('31')
          ? [{ kind: 'load', ends: ends('49', '31'), amps: 0 } as const]
          : []),
      ];
    case 'module':
      return [
        { kind: 'load', ends: ends(part.supply, part.ground), amps: part.awakeAmps },
        ...part.outputs.map(({ side, terminal }): BranchSketch => {
          const to = side === 'high' ? part.supply : part.ground;
          return { kind: 'passive', ends: ends(to, terminal) };
        }),
      ];
    case 'alternator':
      // Its own field winding, fed through the charge lamp; what it gives with the engine running is no load.
      return part.terminals.includes('D+') ? [{ kind: 'passive', ends: ends('D+', '31') }] : [];
    default:
      return [];
  }
}
