/** The words a line can start with. One table for the parser and the help page, so that neither can forget a word. */
import { FAILING, WORKING } from '../parse-sight.js';
import {
  connectorLine,
  handsLine,
  itemLine,
  jumperLine,
  operateLine,
  repairLine,
  restLine,
  unjumperLine,
} from './action-lines.js';
import { partLine, swapLine, unlampLine, waitLine } from './item-lines.js';
import type { Draft, LineContext } from './context.js';
import type { Cursor } from './cursor.js';
import { allOf, lookLine, measuredLine, seenLine, toldLine } from './finding-lines.js';
import {
  takeAmps,
  takeContinuity,
  takeDrop,
  takeFuseLamp,
  takeOhms,
  takeTestLamp,
  takeVolts,
} from './measurements.js';
import {
  assumeLine,
  causeLine,
  concernLine,
  doneLine,
  noteLine,
  proveLine,
  queryLine,
  redrawLine,
  skipLine,
  symptomLine,
  undoLine,
} from './record-lines.js';
import { takeScan } from './scan-lines.js';

export interface Verb {
  /** The first is the one the help shows; each may be two words. */
  readonly words: readonly string[];
  readonly usage: string;
  readonly meaning: string;
  readonly parse: (cursor: Cursor, context: LineContext) => Draft;
}

const verb = (words: string, usage: string, meaning: string, parse: Verb['parse']): Verb => ({
  words: words.split('|'),
  usage,
  meaning,
  parse,
});

/** Headings and lines in the order of the help page. */
export const VERBS: readonly (readonly [heading: string, verbs: readonly Verb[]])[] = [
  [
    'What the loads do',
    [
      verb('fails|fail|dead', 'fails H1 H2 when gear reverse', 'these do nothing', allOf(FAILING)),
      verb('works|work', 'works B1 when key on', 'these work as they should', allOf(WORKING)),
      verb(
        'see|hear|saw|heard',
        'H1 dim',
        'lit, dim, off, flickers, flashes (fast), runs, slow, sounds, clicks, chatters, hot, lukewarm ...',
        seenLine(),
      ),
      verb('told', 'told H1 off', 'somebody said so; nobody here saw it', toldLine),
      verb(
        'look|looks',
        'look F4 blown',
        'good, blown, broken, burnt, corroded, loose, wet, wrong part',
        lookLine,
      ),
    ],
  ],
  [
    'Readings (any may end with: when CONTROL POSITION)',
    [
      verb(
        'volts|volt|v',
        'volts X3.1h 11.4/12.4',
        'black on bat- unless a second point follows; /12.4 = at the battery; volts lowz ... = low-impedance mode, volts loaded ... = with a test lamp across',
        measuredLine(takeVolts),
      ),
      verb(
        'drop|vd',
        'drop GP2 bat- 0.8',
        'voltage drop; one name (drop X3.1, drop W3, drop F4 12 mV) = across it',
        measuredLine(takeDrop),
      ),
      verb(
        'ohms|ohm|r',
        'ohms F4 0.1',
        'one part = on its own terminals, taken out; else two points; OL',
        measuredLine(takeOhms),
      ),
      verb('beep|continuity|cont', 'beep X3.2h body yes', 'buzzer: yes or no', measuredLine(takeContinuity)),
      verb(
        'amps|amp|a',
        'amps W3 1.2',
        'meter in line with that wire, terminal or pin',
        measuredLine(takeAmps('amps')),
      ),
      verb(
        'clamp|clamp meter',
        'clamp W3 1.2',
        'clamp meter around that wire, terminal or pin; nothing is opened',
        measuredLine(takeAmps('clamp')),
      ),
      verb(
        'testlamp|test lamp|tl',
        'testlamp X3.1h lit',
        'lit (also when it flashes), dim, off; clip on bat- unless a second point follows; testlamp led ...',
        measuredLine(takeTestLamp),
      ),
      verb(
        'fuselamp|fuse lamp',
        'fuselamp F4 lit',
        'the test lamp that hangs in place of a fuse (see lamp): lit, dim, off',
        measuredLine(takeFuseLamp),
      ),
      verb(
        'scan',
        'scan A1.3 pressed',
        'what a module reports of an input: a word of the circuit file, volts, no answer',
        measuredLine(takeScan),
      ),
      verb(
        'prove|proved',
        'prove volts',
        'it was shown to work: on a live point, ohms with the leads held together (volts, ohms, test lamp, amps, clamp, scan)',
        proveLine,
      ),
    ],
  ],
  [
    'What you do',
    [
      verb(
        'set|operate',
        'gear reverse, key on',
        'work a control; one word of its name will do (also: engine running)',
        operateLine,
      ),
      verb('rest|all off', 'rest', 'every control at rest, engine off', restLine),
      verb('unplug|disconnect|part', 'unplug X3', 'part the connector', connectorLine('unplug')),
      verb('plug|connect|plug in', 'plug X3', 'connect it again', connectorLine('plug')),
      verb('out|take out|pull|remove', 'out F4', 'take the item out of its holder', itemLine('take out')),
      verb('in|refit|put back|put in', 'in F4', 'refit the item that was there', itemLine('refit')),
      verb('new|fit new|replace', 'new F4', 'fit a new item', itemLine('fit new')),
      verb(
        'knowngood|known-good|known good|fit known-good',
        'knowngood H1',
        'try an item known to be good; in H1 puts the own one back',
        itemLine('fit known-good'),
      ),
      verb('swap|exchange', 'swap H1 H2', 'two like items change places', swapLine),
      verb(
        'lamp|lamp in place',
        'lamp F4',
        'take the fuse out and hang a test lamp in its place',
        partLine('lamp in place'),
      ),
      verb('unlamp|remove lamp', 'unlamp F4', 'take that test lamp off; the fuse stays out', unlampLine),
      verb('reset', 'reset F9', 'reset a breaker or a module that shut an output down', partLine('reset')),
      verb('wait', 'wait 30', 'minutes with everything off, for electronics to go to sleep', waitLine),
      verb('jumper|bridge', 'jumper S1.1 S1.2', 'bridge two points (jumper S1 = across it)', jumperLine),
      verb('unjumper|unbridge|remove jumper', 'unjumper', 'take the jumper off', unjumperLine),
      verb('clean', 'clean GP2', 'clean a part, wire end or point', handsLine('clean')),
      verb('tighten', 'tighten GP2', 'tighten it', handsLine('tighten')),
      verb('reseat', 'reseat F4', 'pull and push it home', handsLine('reseat')),
      verb('wiggle|shake|tap', 'wiggle W3', 'wiggle test', handsLine('wiggle')),
      verb(
        'repair|repaired',
        'repair X3 cleaned contacts 15 min 5 price',
        'a repair in your words, with minutes and price',
        repairLine,
      ),
    ],
  ],
  [
    'The record',
    [
      verb('symptom', 'symptom absent', 'the complaint is there, or not, from here on', symptomLine),
      verb('assume', 'assume F4', 'take it as good without a test', assumeLine),
      verb('note|n', 'note tow bar fitted last week', 'a note for the report', noteLine),
      verb(
        'skip',
        'skip volts X3.1h: cannot reach',
        'a test not done: cannot tell, cannot reach, no tool',
        skipLine,
      ),
      verb(
        'undo|u',
        'undo 5',
        'event 5 counts no more (no number: the last); undoing an undo brings it back',
        undoLine,
      ),
      verb('late|before', 'late 5 volts F4.1 12.5', 'was observed before event 5', () => {
        // parseLine takes `late` itself, because it changes where the rest of the line belongs in time.
        throw new Error('late is handled by parseLine');
      }),
      verb(
        'complaint|concern',
        'complaint no reversing lamps',
        'what the customer says',
        concernLine('complaint'),
      ),
      verb(
        'vehicle',
        'vehicle demo van',
        'also: odometer, technician, customer, meter',
        concernLine('vehicle'),
      ),
      verb('odometer', 'odometer 120000 km', 'reading of the odometer', concernLine('odometer')),
      verb('technician', 'technician A. N.', 'who works on it', concernLine('technician')),
      verb('customer', 'customer demo', 'whose vehicle it is', concernLine('customer')),
      verb('meter', 'meter demo multimeter', 'the instrument used', concernLine('meter')),
      verb(
        'history',
        'history sudden, after rain',
        'recent work, tow bar, water, collision, sudden or gradual',
        concernLine('history'),
      ),
      verb('cause', 'cause GP2 corroded ground', 'what the fault was', causeLine),
      verb('done|close', 'done', 'close the session', doneLine),
    ],
  ],
  [
    'Questions',
    [
      verb('suspects|s', 'suspects', 'what is still suspected', queryLine('suspects', 'nothing')),
      verb('next', 'next', 'the suggested test', queryLine('next', 'nothing')),
      verb('why', 'why F4', 'why it is suspected or cleared', queryLine('why', 'anything')),
      verb('setup|set-up', 'setup', 'the set-up as it stands', queryLine('setup', 'nothing')),
      verb(
        'draw|drawing',
        'draw H1',
        'the circuit, or what one part hangs on, with what is suspected and cleared',
        queryLine('draw', 'anything'),
      ),
      verb('list|log', 'list', 'what is recorded, with numbers', queryLine('list', 'nothing')),
      verb(
        'redraw|redrawn',
        'redraw W4 goes to SP2',
        'the circuit file was corrected: read it anew; the findings stay',
        redrawLine,
      ),
      verb('report', 'report', 'the report so far', queryLine('report', 'nothing')),
      verb(
        'pause|quit|exit|q',
        'pause',
        'stop here; the session can be resumed',
        queryLine('pause', 'nothing'),
      ),
      verb('help|?|h', 'help', 'this page', queryLine('help', 'word')),
    ],
  ],
];

/** Every starting word to its verb. */
export const VERB_WORDS: ReadonlyMap<string, Verb> = new Map(
  VERBS.flatMap(([, verbs]) => verbs.flatMap((entry) => entry.words.map((word) => [word, entry] as const))),
);
