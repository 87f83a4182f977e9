/**
 * The lessons under examples/: each is a trap of the trade, recorded, with the conclusion it must lead to. Every file goes through
 * the program's own replay; what `expect` cannot say (cautions, what must have fallen, what is hidden or confirmed) is said here.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import type { Replayed } from '../../src/cli/replay/replayed.js';
import { replaySession } from '../../src/cli/replay-session.js';
import type { Diagnosis } from '../../src/diagnosis/diagnosis-types.js';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import { createWorkbench } from '../../src/diagnosis/workbench.js';
import { parseSession } from '../../src/files/session-file.js';
import { cautionsBefore } from '../../src/planning/step-cautions.js';
import { foldCase } from '../../src/session/fold.js';

const folder = fileURLToPath(new URL('../../examples/', import.meta.url));
const files = readdirSync(folder).filter((name) => name.endsWith('.yaml'));

/** Files of hand-written sessions name their circuit themselves: nothing of a terminal is needed to replay them. */
const replayed = (file: string): Promise<Replayed> => replaySession({ cwd: folder }, folder + file, file);

type Check = (replay: Replayed) => void | Promise<void>;

/** Faults, by id, that must have fallen on their own. */
const gone =
  (...faults: readonly string[]): Check =>
  ({ session: { diagnosis } }) => {
    const suspects = diagnosis.suspects.map(({ hypothesis }) => hypothesis);
    for (const fault of faults) expect(suspects).not.toContain(fault);
  };

/** Positive evidence, or none yet. */
const confirmed =
  (hypothesis: string, yes: boolean): Check =>
  ({ session: { diagnosis } }) => {
    const suspect = diagnosis.suspects.find((one) => one.hypothesis === hypothesis);
    expect(suspect?.confirmed).toBe(yes);
  };

/** The same session with one line told otherwise: what that line was worth. */
async function retold(file: string, line: string, otherwise: string): Promise<Diagnosis> {
  const text = readFileSync(`${folder}${file}.yaml`, 'utf8');
  const steps = text.slice(0, text.indexOf('\nexpect:') + 1);
  expect(steps).toContain(`- ${line}\n`);
  const other = steps.replace(`- ${line}\n`, `- ${otherwise}\n`);
  const loaded = await parseSession(other, `${folder}${file}.yaml`);
  if ('problems' in loaded) throw new Error(loaded.problems.map(({ message }) => message).join('\n'));
  return diagnose(createWorkbench(loaded.circuit), foldCase(loaded.circuit, loaded.recorded));
}

const suspectIds = (diagnosis: Diagnosis): string[] => diagnosis.suspects.map(({ hypothesis }) => hypothesis);

/** No suspect at all may be called confirmed. */
const nothingConfirmed: Check = ({ session: { diagnosis } }) =>
  expect(diagnosis.suspects.filter((suspect) => suspect.confirmed)).toEqual([]);

const asks =
  (words: string): Check =>
  ({ session: { diagnosis } }) =>
    expect(diagnosis.asks.join('\n')).toContain(words);

/** Every lesson, what it is a trap of, and what must hold besides its `expect`. */
const LESSONS: readonly (readonly [file: string, trap: string, ...checks: Check[]])[] = [
  [
    'full-volts-unloaded',
    'full voltage stands unloaded behind a corroded joint',
    nothingConfirmed,
    gone('F4:link open', 'SP3/W9 resistance'),
  ],
  [
    'drop-under-load',
    'voltage drop under load finds the joint',
    confirmed('X2.1 resistance', true),
  ],
  ['shared-ground-back-feed', 'a bad shared ground back-feeds other lamps', confirmed('GP3 resistance', true)],
  ['one-dead-stop-lamp', 'one side is dead'],
  [
    'other-load-on-the-fuse',
    'the other load on the fuse works',
    gone('F2:link open', 'F2.1 resistance', 'F2.2 resistance', 'S1:30-15 resistance', 'W4 resistance'),
  ],
  ['jumper-past-the-switch', 'a jumper blames the switch but not its connector', nothingConfirmed],
  ['no-stop-lamps', 'it works after refitting', nothingConfirmed],
  ['swap-that-follows', 'the fault follows the swapped lamp', gone('X4.1 resistance', 'GP3 resistance')],
  ['swap-that-stays', 'the fault stays where it was after the swap', gone('H2:1 lead open', 'H1:1 lead open')],
  ['fuse-blows-again', 'a fuse blows again', gone('F6:link open')],
  [
    'continuity-through-a-parallel-path',
    'continuity is heard through a parallel path',
    gone('H1:54 lead open', 'H1.54 resistance'),
  ],
  ['reversing-dead-lamp', 'twelve volts stand on the ground side of a dead lamp'],
  [
    'relay-clicks-contacts-burnt',
    'the relay clicks but its contacts are burnt',
    gone('K1:coil lead open', 'F3:link open'),
  ],
  [
    'ohms-on-a-live-line',
    'ohms are read on a live line',
    ({ session }) => {
      const { circuit, recorded } = session;
      const at = recorded.findIndex(({ event }) => event.type === 'found' && event.reading.kind === 'ohms');
      const cautions = cautionsBefore(circuit, recorded.slice(0, at), [recorded[at]!.event]);
      expect(cautions.find(({ id }) => id === 'ohms-live')?.stop).toBe(true);
      const without = diagnose(createWorkbench(circuit), foldCase(circuit, recorded.slice(0, at)));
      expect(session.diagnosis.fallen.length).toBe(without.fallen.length);
    },
  ],
  ['can-pair-120-ohm', 'a CAN pair has 120 ohm instead of 60', gone('A3:terminator resistance', 'A1:terminator resistance')],
  [
    'parasitic-draw-by-fuse-millivolts',
    'a parasitic draw is found by millivolts across fuses',
    gone('A1:electronics asleep awake', 'S3:1-31 stuck', 'S4:1-31 stuck'),
  ],
  ['charging-line-loses-half-a-volt', 'a charging line loses half a volt', gone('B1 resistance', 'B2 resistance')],
  [
    'starter-cable-loses-a-volt',
    'a starter cable loses one volt',
    confirmed('K2.30 resistance', true),
  ],
  ['found-by-wiggling', 'an intermittent fault is found by wiggling'],
  [
    'false-zero',
    'a dirty probe reads zero',
    asks('prove volts'),
    nothingConfirmed,
    async () => {
      const zero = 'volts S4.1 0.00 when pedal down';
      const proved = await retold('false-zero', zero, `volts bat+ bat- 12.5\n  - ${zero}`);
      expect(suspectIds(proved)).not.toContain('S4:1-2 resistance');
    },
  ],
  [
    'rounded-twelve',
    'twelve is not 12.0',
    nothingConfirmed,
    async () => {
      const most = async (volts: string) => {
        const told = await retold('rounded-twelve', 'volts H1.1 12/12.5', `volts H1.1 ${volts}/12.5`);
        return told.suspects.find(({ hypothesis }) => hypothesis === 'X3.1 resistance')!.severities[0]!.high;
      };
      expect(await most('12.0')).toBeLessThan((await most('12')) / 2);
    },
  ],
  [
    'mistyped-reading',
    'a reading is mistyped',
    ({ session: { diagnosis } }) => {
      const open = diagnosis.open.find(({ what }) => what === 'a reading is wrong');
      const best = Math.max(...diagnosis.suspects.map(({ share }) => share));
      expect(open?.share).toBeGreaterThan(best);
      const mended = retold('mistyped-reading', 'volts X4.1c 1.21/12.5', 'volts X4.1c 12.1/12.5');
      return mended.then(({ paired, fits }) => {
        expect([paired, fits]).toEqual([false, true]);
      });
    },
  ],
  ['lamp-of-the-wrong-voltage', 'a 24 V lamp sits in a 12 V holder', gone('X4.1 resistance')],
  [
    'pwm-output-read-as-a-bad-joint',
    'a pulsed output is read as a bad joint',
    async ({ session: { diagnosis } }) => {
      expect(diagnosis.abnormal).toBe(false);
      const lossy = await retold('pwm-output-read-as-a-bad-joint', 'volts H1.1 7.4/12.4', 'volts H1.1 4.1/12.4');
      expect(lossy.abnormal).toBe(true);
    },
  ],
  [
    'damp-broken-wire',
    'a damp broken wire shows ten volts',
    gone('X4.1 resistance'),
  ],
  [
    'two-faults-one-hidden',
    'one fault hides another',
    ({ session: { circuit, recorded, diagnosis } }) => {
      const repair = recorded.findIndex(
        ({ event }) => event.type === 'did' && event.action.do === 'repair',
      );
      const before = diagnose(createWorkbench(circuit), foldCase(circuit, recorded.slice(0, repair)), { fit: true });
      expect(before.hidden.map(({ behind }) => behind.id)).toEqual(['X2.1 resistance']);
      expect(before.hidden[0]?.faults[0]?.id).toBe('H1:1 lead open');
      // What was left over when the pin had been repaired.
      const [first] = diagnosis.suspects;
      expect(first!.faults.map(({ id }) => id)).toEqual(['H1:1 lead open']);
      expect(first!.besides?.map(({ id }) => id)).toEqual(['X2.1 resistance']);
    },
  ],
];

describe('the lessons', () => {
  test('when the folder is read then each of its files is a lesson in the table, and there are at least 25', () => {
    expect(LESSONS.map(([file]) => `${file}.yaml`).sort()).toEqual([...files].sort());
    expect(files.length).toBeGreaterThanOrEqual(25);
  });

  test.each(files)('when %s is opened then it says what it teaches and names its source', (file) => {
    const text = readFileSync(folder + file, 'utf8');
    expect(text).toMatch(/^# [^]*\n# What it teaches: /);
    expect(text).toMatch(/^source: \S/m);
    expect(text).toMatch(/\bdemo\b/i);
  });

  test.each(LESSONS.map(([file, trap, ...checks]) => ({ file, trap, checks })))(
    'when $trap then $file leads to its conclusion',
    async ({ file, checks }) => {
      const replay = await replayed(`${file}.yaml`);
      expect(replay.differs).toEqual([]);
      for (const check of checks) await check(replay);
    },
    120_000,
  );
});
