/** What a module draws and how hard its data drivers drive nobody knows: where volts hang on them they may be almost anything. */
import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

test('when crossed pins feed a module through the data pair then its supply may read from next to nothing up to most of the battery', async () => {
  const bench = await workbenchOf('can-pair');
  const seen = ['pedal down', 'H2 off', 'prove volts'];
  for (const volts of ['0.85', '3.2', '6.0', '9.0'])
    expect(suspectIds(diagnosisOf(bench, [...seen, `volts X3.1h bat- ${volts}`]))).toContain(
      'X2.1 crossed X2.2',
    );
});
