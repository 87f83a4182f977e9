/**
 * Lamps by their category of UN Regulation 37 (the name on the cap): rated volts and watts. The regulation measures at a test
 * voltage (13.5 V signal lamps, 13.2 V headlamps, 28 V) and sets the most watts there; tests/published holds the rated watts and
 * the law of a filament against that. PY21/5W from ECE/TRANS/WP.29/GRE/2012/34; the others from memory.
 */
import type { CatalogueEntry, CatalogueKeys } from './catalogue-entry.js';

const R37 = 'UN R37, from memory';

/** @param watts12 rated watts at 12 V; `watts24` at 24 V, where it is made for that */
function lamp(id: string, words: string, watts12: number, watts24?: number, source = R37): CatalogueEntry {
  return entry(
    id,
    words,
    { watts: `${watts12} W` },
    watts24 === undefined ? undefined : { watts: `${watts24} W` },
    source,
  );
}

function entry(
  id: string,
  words: string,
  at12: CatalogueKeys,
  at24: CatalogueKeys | undefined,
  source = R37,
): CatalogueEntry {
  const made = new Map<number, CatalogueKeys>([[12, { volts: '12 V', ...at12 }]]);
  if (at24 !== undefined) made.set(24, { volts: '24 V', ...at24 });
  return { id, type: 'lamp', words, source, demo: false, made };
}

/**
 * Headlamps at 24 V have their rated watts near the test voltage of 28 V, for R37 allows little more there (75/70 W H4: 85/80 W, H7:
 * 75 W, the others 84 W): the rated watts at these volts keep the whole of what is allowed inside the spread of a filament.
 */
const head = (id: string, words: string, watts12: number): CatalogueEntry =>
  entry(id, words, { watts: `${watts12} W` }, { volts: '26.5 V', watts: '70 W' });

/** Two filaments on the terminals of DIN 72552. */
const two = (one: string, watts: number, other: string, less: number): CatalogueKeys => ({
  filaments: { [one]: `${watts} W`, [other]: `${less} W` },
});

export const LAMPS: readonly CatalogueEntry[] = [
  lamp('P21W', 'stop, reversing, fog or turn lamp, bayonet', 21, 21),
  lamp('PY21W', 'turn lamp, amber, bayonet', 21, 21),
  lamp('H21W', 'signal lamp, halogen, bayonet', 21, 21),
  entry('P21/5W', 'stop and tail lamp, two filaments', two('54', 21, '58', 5), two('54', 21, '58', 5)),
  entry(
    'PY21/5W',
    'turn and position lamp, amber, two filaments',
    two('54', 21, '58', 5),
    undefined,
    'ECE/TRANS/WP.29/GRE/2012/34',
  ),
  lamp('W21W', 'signal lamp, wedge base', 21),
  entry('W21/5W', 'stop and tail lamp, wedge base, two filaments', two('54', 21, '58', 5), undefined),
  lamp('W16W', 'high-mounted stop or reversing lamp, wedge base', 16),
  lamp('R10W', 'tail or interior lamp, bayonet', 10, 10),
  lamp('R5W', 'tail, position or plate lamp, bayonet', 5, 5),
  lamp('T4W', 'position or instrument lamp, small bayonet', 4, 4),
  lamp('H6W', 'position lamp, halogen, bayonet', 6),
  lamp('W5W', 'position, plate or side marker lamp, wedge base', 5, 5),
  lamp('WY5W', 'side turn lamp, amber, wedge base', 5, 5),
  lamp('W3W', 'instrument or side marker lamp, wedge base', 3, 3),
  lamp('W2.3W', 'instrument lamp, wedge base', 2.3),
  lamp('C5W', 'plate or interior lamp, festoon', 5, 5),
  lamp('C21W', 'reversing lamp, festoon', 21),
  lamp('W1.2W', 'instrument lamp, small wedge base', 1.2, 1.2, 'IEC 60983, from memory'),
  head('H1', 'headlamp or fog lamp, one filament', 55),
  head('H3', 'fog lamp with a lead, one filament', 55),
  entry('H4', 'headlamp, main and dipped beam', two('56a', 60, '56b', 55), {
    volts: '27 V',
    ...two('56a', 75, '56b', 70),
  }),
  // Its 58 W at 13.2 V are the most that R37 allows: the rated 55 W are had there, not at 12 V as with the others.
  entry('H7', 'headlamp, one filament', { volts: '13.2 V', watts: '55 W' }, { volts: '28 V', watts: '70 W' }),
  lamp('H8', 'fog lamp, one filament', 35),
  head('H11', 'headlamp or fog lamp, one filament', 55),
  lamp('HB3', 'main beam, one filament', 60),
  lamp('HB4', 'dipped beam or fog lamp, one filament', 51),
  entry('H15', 'main beam and daytime lamp', { filaments: { '56a': '55 W', '58': '15 W' } }, undefined),
];
