/** Cautions first, then the record, then what it changed. Every entry path goes through here. */
import { cautionsBefore } from '../../planning/step-cautions.js';
import type { Caution } from '../../planning/cautions.js';
import { secondFuse } from '../../planning/second-fuse.js';
import type { Event, Recorded } from '../../session/events.js';
import type { Output } from '../output.js';
import { paragraph } from '../show/page.js';
import { showConditionMeant } from '../show/condition-meant.js';
import { showConsequences } from '../show/consequences.js';
import { cautionLines } from '../show/suggestion.js';
import type { Session } from '../session.js';

/** Asked before a step that can hurt is recorded; true goes on. */
export type Confirm = (stops: readonly Caution[]) => Promise<boolean>;

/** Returns what was recorded; nothing when a caution stopped it. */
export async function carryOut(
  session: Session,
  events: readonly Event[],
  echo: readonly string[],
  output: Output,
  confirm: Confirm,
): Promise<readonly Recorded[]> {
  const cautions = [
    ...cautionsBefore(session.circuit, session.recorded, events),
    ...fuseCaution(session, events),
  ];
  for (const line of cautionLines(cautions)) output.say(line, 'warning');
  if (cautions.some((caution) => caution.refused)) {
    output.complain(
      'Not recorded.',
      'This program takes no part in that test. Choose another one; if it was a slip, type the line again.',
    );
    return [];
  }
  const stops = cautions.filter((caution) => caution.stop);
  if (stops.some(({ id }) => id === 'ohms-live'))
    output.complain(
      'Refused: ohms on a live line.',
      `Make the line dead and type it again, or take volts there now: ${voltsInstead(events)}`,
    );
  if (stops.length > 0 && !(await confirm(stops))) {
    output.say('Not recorded.', 'strong');
    return [];
  }
  const reasons = events.some(changesVerdicts);
  const before = reasons ? session.diagnosis : undefined;
  const recorded = await session.record(events, { judged: events.some(({ type }) => type === 'closed') });
  recorded.forEach(({ number }, index) =>
    output.say(paragraph(echo[index] ?? '', `#${number} recorded: `, '  '), 'good'),
  );
  if (before !== undefined) {
    const numbers = recorded.map(({ number }) => number);
    const { circuit, diagnosis } = session;
    if (before.fits && !diagnosis.fits)
      for (const line of showConditionMeant(circuit, session.case.timeline, diagnosis, numbers))
        output.say(line, 'warning');
    for (const line of showConsequences(before, diagnosis, numbers)) output.say(line);
  }
  return recorded;
}

function voltsInstead(events: readonly Event[]): string {
  for (const event of events) {
    if (event.type !== 'found') continue;
    const { reading } = event;
    if (reading.kind === 'ohms' || reading.kind === 'continuity')
      return `volts ${reading.red} ${reading.black} ...`;
  }
  return 'volts ...';
}

/** The diagnosis is worked out here only where an item goes in. */
function fuseCaution(session: Session, events: readonly Event[]): readonly Caution[] {
  const goesIn = ['refit', 'fit new', 'fit known-good', 'swap', 'reset'];
  if (!events.some((event) => event.type === 'did' && goesIn.includes(event.action.do))) return [];
  const caution = secondFuse(events, session.diagnosis.blown, session.case.timeline);
  return caution === undefined ? [] : [caution];
}

function changesVerdicts(event: Event): boolean {
  return ![
    ...['opened', 'concern', 'noted', 'skipped', 'paused', 'closed', 'concluded'],
    ...['exercise', 'predicted', 'claimed', 'hinted', 'attempted'],
  ].includes(event.type);
}
