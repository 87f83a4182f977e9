/**
 * Replayed sessions as JUnit XML, the form in which build servers take test results: a session that differs is a failure, one that
 * could not be run an error. There are no times in it: the same sessions give the same bytes.
 */
import { visible } from '../circuit/visible.js';
import { totalsOf, type Replay } from './replay-data.js';
import { replayDetails } from './replay-text.js';

export function replayJunit(replays: readonly Replay[]): string {
  const { differs, failed } = totalsOf(replays);
  const counts = `tests="${replays.length}" failures="${differs}" errors="${failed}"`;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites name="knowngood replay" ${counts}>`,
    `  <testsuite name="knowngood replay" ${counts} skipped="0">`,
    ...replays.flatMap(testCase),
    '  </testsuite>',
    '</testsuites>',
    '',
  ].join('\n');
}

function testCase(replay: Replay): readonly string[] {
  const { file, title, circuit, outcome, lines } = replay;
  const group = circuit === '' ? 'unknown circuit' : circuit;
  const name = title === file ? file : `${file}: ${title}`;
  const head = `    <testcase classname="${attribute(group)}" name="${attribute(name)}"`;
  const details = replayDetails(replay);
  if (details.length === 0) return [`${head}/>`];
  const tag = { holds: 'system-out', differs: 'failure', 'could not run': 'error' }[outcome];
  const more = outcome === 'holds' ? '' : ` type="${outcome}" message="${attribute(lines[0] ?? outcome)}"`;
  return [`${head}>`, `      <${tag}${more}>${content(details.join('\n'))}</${tag}>`, '    </testcase>'];
}

/** XML 1.0, section 2.2: what is no character there must not appear, not even as a reference. Most of it is written out before. */
function characters(text: string): string {
  return visible(text, { lines: true }).replace(
    /[^\n\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu,
    '\ufffd',
  );
}

function content(text: string): string {
  return characters(text).replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

function attribute(text: string): string {
  return content(text).replaceAll('"', '&quot;').replace(/\n+/g, ' ');
}
