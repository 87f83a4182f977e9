/** The forms of a replay, read by others: JUnit XML against a schema by libxml2, TAP by the parser of its own project. */
import { readFileSync } from 'node:fs';
import { Parser } from 'tap-parser';
import { describe, expect, test } from 'vitest';
import { memoryPages, validateXML } from 'xmllint-wasm';
import type { Replay } from '../../src/report/replay-data.js';
import { replayJunit } from '../../src/report/replay-junit.js';
import { tapHead, tapLine } from '../../src/report/replay-tap.js';

const SCHEMA = readFileSync(new URL('./junit.rng', import.meta.url), 'utf8');
const base = { circuit: 'stop-tail', lines: [], reasons: [], notes: [], accepted: [] };
const HOLDS: Replay = { ...base, file: 'a.yaml', title: 'a.yaml', outcome: 'holds' };
/** Everything that XML, TAP or YAML could take for its own, or must not have at all. */
const NASTY = `]]> & <b> "q" 'q' # TODO \\ ${'\u0000'}${'\u001b'}[31m\u0085\u2028\ufffe\ud800 - ... --- ok 9 \u{1f50c}`;
const SESSIONS: readonly Replay[] = [
  HOLDS,
  { ...HOLDS, file: 'b.journal', title: 'b.journal', notes: ['it holds no conclusions'] },
  {
    ...base,
    file: 'c.yaml',
    title: NASTY,
    outcome: 'differs',
    lines: [NASTY, 'two\nlines'],
    reasons: ['- X3.1 resistance: #5 rules it out now'],
  },
  {
    ...base,
    circuit: '',
    file: 'd # 1.yaml',
    title: 'd # 1.yaml',
    outcome: 'could not run',
    lines: ['it is damaged', NASTY],
  },
];

async function problems(xml: string): Promise<readonly string[]> {
  const { errors } = await validateXML({
    xml: { fileName: 'replay.xml', contents: xml },
    schema: { fileName: 'junit.rng', contents: SCHEMA },
    extension: 'relaxng',
    maxMemoryPages: 4 * memoryPages.MiB * 16,
  });
  return errors.map(({ rawMessage }) => rawMessage);
}

describe('JUnit XML', () => {
  test('when sessions hold, differ and cannot run, with any text in them, then the schema is kept', async () => {
    expect(await problems(replayJunit(SESSIONS))).toEqual([]);
  });

  test('when there are none then the schema is kept', async () => {
    expect(await problems(replayJunit([]))).toEqual([]);
  });

  test('when a required attribute is missing or text is not escaped then the same check says so', async () => {
    const xml = replayJunit(SESSIONS);
    expect(await problems(xml.replace(' failures="1"', '').replace(' failures="1"', ''))).not.toEqual([]);
    expect(await problems(xml.replace('&amp;', '&'))).not.toEqual([]);
  });

  test('when sessions differ or could not run then the counts and elements say which', () => {
    const xml = replayJunit(SESSIONS);
    expect(xml).toContain(
      '<testsuite name="knowngood replay" tests="4" failures="1" errors="1" skipped="0">',
    );
    expect(xml.match(/<failure /g)).toHaveLength(1);
    expect(xml.match(/<error /g)).toHaveLength(1);
    expect(xml).toContain('<testcase classname="stop-tail" name="a.yaml"/>');
    expect(xml).toContain('<system-out>note: it holds no conclusions</system-out>');
  });
});

describe('TAP', () => {
  const lines = (replays: readonly Replay[]): string =>
    [tapHead(replays.length), ...replays.map((one, index) => tapLine(one, index + 1)), ''].join('\n');

  test('when it is parsed then plan, outcomes, names and diagnostics come back whole', () => {
    const events = Parser.parse(lines(SESSIONS)) as [string, Record<string, unknown>][];
    const of = (name: string): Record<string, unknown>[] =>
      events.filter(([event]) => event === name).map(([, value]) => value);
    expect(of('version')).toEqual([14]);
    expect(of('plan')[0]).toMatchObject({ start: 1, end: 4 });
    expect(of('complete')[0]).toMatchObject({
      ok: false,
      count: 4,
      pass: 2,
      fail: 2,
      todo: 0,
      skip: 0,
      failures: { length: 2 },
    });
    expect(events.filter(([event]) => event === 'extra')).toEqual([]);
    const asserts = of('assert');
    expect(asserts.map(({ ok }) => ok)).toEqual([true, true, false, false]);
    expect(asserts.map(({ name }) => name).slice(0, 2)).toEqual(['a.yaml', 'b.journal']);
    expect(asserts[3]).toMatchObject({
      name: 'd # 1.yaml',
      diag: { severity: 'error', outcome: 'could not run' },
    });
    expect(asserts[2]).toMatchObject({
      diag: {
        severity: 'fail',
        differences: [NASTY, 'two\nlines'],
        reasons: ['- X3.1 resistance: #5 rules it out now'],
      },
    });
  });

  test('when there are no sessions then the plan is empty and says so', () => {
    const events = Parser.parse(lines([])) as [string, Record<string, unknown>][];
    expect(events.find(([event]) => event === 'complete')?.[1]).toMatchObject({ ok: true, count: 0 });
  });
});
