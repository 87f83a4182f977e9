/**
 * A demo loom for measurements: about 60 items (battery, fuses, switches, connectors, wires, lamps, ground points), each contact
 * an element of its own as in a compiled circuit; 137 nodes, 6 lamps.
 */

const fixed = (ohms) => ({ kind: 'ohms', ohms, low: ohms * 0.8, high: ohms * 1.3 });
const JOINT = fixed(0.002);
const filament = (watts) => ({
  kind: 'curve',
  volts: 12,
  amps: watts / 12,
  exponent: 0.55,
  knee: 0.05,
  cold: 1 / 12,
  coldLow: 1 / 16,
  coldHigh: 1 / 9,
  spread: 0.12,
});

/** @returns {import('../../dist/network/network.js').Network} */
export function demoLoom() {
  const nodeNames = ['bat-', 'body'];
  const elements = [];
  const fuses = [];
  const node = () => nodeNames.push(`n${nodeNames.length}`) - 1;
  const add = (site, a, b, law) => {
    const index = elements.length;
    elements.push({ index, site, part: site, owner: 'item', a, b, law });
    if (law.kind === 'fuse') fuses.push(index);
    return b;
  };
  const plus = node();
  add('battery', 0, plus, { kind: 'source', volts: 12.6, lowVolts: 11, highVolts: 13.2, ohms: 0.01 });
  const bar = add('main feed', add('battery joint', plus, node(), JOINT), node(), fixed(0.0007));
  add('battery ground', add('battery ground joint', 0, node(), JOINT), 1, fixed(0.0005));
  const inner = node();
  add('shared ground', inner, 1, JOINT);
  const switched = [];
  for (let lamp = 1; lamp <= 6; lamp++) {
    let at = bar;
    let sites = 0;
    const next = (site, law) => {
      at = add(`${site} ${lamp}.${++sites}`, at, node(), law);
    };
    next('crimp', JOINT);
    next('wire', fixed(0.01));
    next('fuse contact', JOINT);
    next('fuse link', { kind: 'fuse', ohms: 0.0075, low: 0.005, high: 0.011, amps: 10 });
    next('fuse contact', JOINT);
    next('wire', fixed(0.03));
    next('pin', JOINT);
    next('wire', fixed(0.02));
    next('switch contact', JOINT);
    next('switch', fixed(0.015));
    switched.push(at);
    next('switch contact', JOINT);
    next('wire', fixed(0.05));
    next('pin', JOINT);
    next('wire', fixed(0.01));
    next('holder', JOINT);
    next('lead', fixed(0.0005));
    next('filament', filament(lamp % 2 ? 21 : 5));
    next('holder', JOINT);
    next('wire', fixed(0.01));
    next('pin', JOINT);
    next('wire', fixed(0.02));
    add(`eyelet ${lamp}`, at, lamp % 3 ? inner : 1, JOINT);
  }
  // Two cross feeds, as lamps of one kind share a switch.
  add('bridge 1', switched[0], switched[1], fixed(0.01));
  add('bridge 2', switched[2], switched[3], fixed(0.01));
  // A resistive load straight on the feed bar.
  const heater = add('heater wire', add('crimp', bar, node(), JOINT), node(), fixed(0.02));
  add('heater ground', add('heater element', heater, node(), fixed(4)), 1, JOINT);
  const horn = add('horn wire', bar, node(), fixed(0.02));
  add('horn coil', horn, inner, fixed(3));
  return {
    nodeNames,
    elements,
    points: new Map(),
    loads: new Map(),
    sites: new Map(elements.map(({ site, index }) => [site, index])),
    fuses,
    coils: [],
  };
}
