/** `circuits`: the shelf, one circuit a line: name for `start`, system volts, title, how many loads. */
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { loadsOf } from '../../circuit/circuit.js';
import { readCircuit } from '../../files/circuit-file.js';
import type { CommandResult, Context } from '../context.js';
import { OWN_CIRCUITS } from '../find-circuit.js';
import { STATUS } from '../io.js';

export async function circuits({ output }: Context, { json = false }: { json?: boolean }): CommandResult {
  const files = (await readdir(OWN_CIRCUITS)).filter((file) => file.endsWith('.yaml'));
  const names = files.map((file) => file.replace(/\.yaml$/, '')).sort();
  const list = [];
  for (const name of names) {
    const loaded = await readCircuit(join(OWN_CIRCUITS, `${name}.yaml`));
    if ('problems' in loaded) continue;
    const { id, title, nominalVolts, parts } = loaded.circuit;
    list.push({ id, title, volts: nominalVolts, loads: [...parts.values()].flatMap(loadsOf) });
  }
  if (json) output.json('circuits', { folder: OWN_CIRCUITS, circuits: list });
  else {
    const width = Math.max(...list.map(({ id }) => id.length));
    for (const { id, title, volts, loads } of list)
      output.result(`${id.padEnd(width)}  ${volts} V  ${String(loads.length).padStart(2)} loads  ${title}`);
    output.say('To begin with one: start NAME.');
  }
  return STATUS.ok;
}
