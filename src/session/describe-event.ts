/** One event in words, as it is echoed when recorded and listed afterwards. */
import type { Circuit } from '../circuit/circuit.js';
import { describeAction, describePlace, describeReading, describeSetUp } from './describe.js';
import type { Event, Reading } from './events.js';
import { whenSetUp } from './standing.js';
import { formatTyped } from './format-typed.js';
import type { SetUp } from './setup.js';

/** `standing` is the set-up in which the event happens, before its own `when`. */
export function describeEvent(circuit: Circuit, event: Event, standing: SetUp): string {
  switch (event.type) {
    case 'opened':
      return `session opened on ${event.circuit.id}`;
    case 'concern':
      return Object.entries(event.concern)
        .map(([field, answer]) => `${field}: ${Array.isArray(answer) ? answer.join('; ') : answer}`)
        .join(', ');
    case 'did':
      return describeAction(circuit, event.action) + late(event.before);
    case 'found': {
      const setUp = describeSetUp(circuit, whenSetUp(event.when ?? [], standing));
      const extras = [
        ...(event.battery === undefined ? [] : [`battery ${formatTyped(event.battery, 'volts')}`]),
        ...(setUp.length === 0 ? ['everything at rest'] : setUp),
        ...(event.evidence === 'told' ? ['told, not seen'] : []),
        ...(event.symptom === undefined ? [] : [`complaint ${event.symptom}`]),
      ];
      return [describeReading(circuit, event.reading), ...extras].join(', ') + late(event.before);
    }
    case 'symptom':
      return `from here on the complaint is ${event.symptom}`;
    case 'proved':
      return event.mode === 'scan'
        ? 'the scan tool was shown to work'
        : `${event.mode}: the meter was shown to work`;
    case 'assumed':
      return `${describePlace(circuit, event.part)} is taken as good without a test`;
    case 'noted':
      return `note: ${event.text}`;
    case 'redrawn':
      return `the drawing was corrected${event.words === '' ? '' : `: ${event.words}`}`;
    case 'skipped':
      return `not done (${event.why}): ${event.test}`;
    case 'undone':
      return `event ${event.number} counts no more`;
    case 'concluded':
      return `cause: ${describePlace(circuit, event.at)}${event.words === '' ? '' : `, ${event.words}`}`;
    case 'paused':
      return 'session paused';
    case 'closed':
      return 'session closed';
    case 'exercise':
      return `exercise ${event.id}, attempt ${event.attempt}${event.student === undefined ? '' : ` of ${event.student}`}`;
    case 'predicted':
      return `predicted: ${event.words}`;
    case 'claimed':
      return `said to be cleared: ${describePlace(circuit, event.at)}${event.of === '' ? '' : `, ${event.of}`}`;
    case 'hinted':
      return `hint ${event.number} asked for`;
    case 'attempted':
      return `tried, not done (${event.why}): ${describeTest(circuit, event.reading)}`;
  }
}

/** Where a meter was held, without what it showed. */
function describeTest(circuit: Circuit, reading: Reading): string {
  if (!('red' in reading)) return reading.kind;
  return `${reading.kind} between ${describePlace(circuit, reading.red)} and ${describePlace(circuit, reading.black)}`;
}

function late(before: number | undefined): string {
  return before === undefined ? '' : `, observed before event ${before}`;
}
