// Appends to a journal until it is killed; says every number on stdout once it is acknowledged. Runs on the built program.
import { createJournal, openJournal } from '../../dist/files/journal.js';
import { stat } from 'node:fs/promises';
import { writeSync } from 'node:fs';

const path = process.argv[2];
const exists = await stat(path).then(
  () => true,
  () => false,
);
const journal = exists ? (await openJournal(path)).journal : await createJournal(path);
writeSync(1, 'open\n');
for (let turn = 0; ; turn++) {
  const events = Array.from({ length: 1 + (turn % 3) }, () => ({
    type: 'noted',
    text: `turn ${turn} `.repeat(1 + (turn % 40)),
  }));
  const recorded = await journal.append(events, '2024-05-06T10:00:00Z');
  // Straight to the descriptor: what stands here was acknowledged before the process died.
  writeSync(1, recorded.map(({ number }) => `${number}\n`).join(''));
}
