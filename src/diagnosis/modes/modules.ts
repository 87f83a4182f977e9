/** What goes wrong inside an electronic module; where its elements sit is told in network/compile-module.ts. */
import type { Module } from '../../circuit/circuit.js';
import type { Element } from '../../network/network.js';
import type { AppliedFault } from '../../network/solver-types.js';
import { FIXED, logScale, SERIES } from '../severity.js';
import { nameOf, obeys, open, replacement, series, type ModeList } from './mode-list.js';
import { ODDS } from './odds.js';

export function moduleModes(list: ModeList, element: Element, part: Module): void {
  const name = nameOf(part);
  const repair = replacement(part);
  const site = element.site.slice(part.id.length + 1);
  const dead = (weight: number, label: string) =>
    list.add(element, 'dead', FIXED, weight, { apply: open(element), repair, label });
  if (site === 'supply') return dead(ODDS.module, `${name} does nothing although it has supply and ground`);
  if (site === 'terminator') {
    list.add(element, 'resistance', SERIES, ODDS.terminator, {
      apply: series(element),
      repair,
      label: `terminating resistor in ${name} broken or missing`,
    });
    return;
  }
  if (site === 'electronics asleep') {
    const most = Math.max(part.awakeAmps * 1.6, part.asleepAmps * 4);
    list.add(element, 'awake', logScale('A', part.asleepAmps * 2, most, 3), ODDS.moduleAwake, {
      apply: (amps) => {
        const ohms = list.circuit.nominalVolts / amps;
        return obeys(element, { kind: 'ohms', ohms, low: ohms, high: ohms });
      },
      repair,
      label: `${name} does not go to sleep`,
    });
    return;
  }
  const [terminal, what] = site.split(' ');
  switch (what) {
    case 'driver':
      if (element.law.kind !== 'contact' || part.can?.high === terminal || part.can?.low === terminal) return;
      dead(ODDS.moduleOutput, `output ${terminal} of ${name} does not switch on`);
      list.add(element, 'stuck', FIXED, ODDS.moduleOutput / 2, {
        apply: (): AppliedFault => ({ kind: 'stuck', element: element.index, closed: true }),
        repair,
        label: `output ${terminal} of ${name} stays on`,
      });
      return;
    case 'input':
      return dead(ODDS.moduleInput, `${name} does not see its input ${terminal}: it always counts as low`);
    case 'pull':
      if (site === `${terminal} pull`)
        dead(ODDS.moduleInput / 2, `pull resistor of input ${terminal} of ${name} broken`);
      return;
    case 'reference':
      return dead(ODDS.moduleInput, `${name} gives no reference volts at ${terminal}`);
  }
}
