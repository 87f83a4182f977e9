/**
 * What the program must say about each file in broken/: every mistake in it, as `line:column severity: message. Mend`.
 * A caret's place matters as much as the words: it is where the person looks first.
 */
export interface BrokenCase {
  readonly file: string;
  readonly says: readonly string[];
}

export const BROKEN: readonly BrokenCase[] = [
  {
    file: 'alias.yaml',
    says: [
      '3:8 error: * at the start of a value is a YAML alias, which is not used here. Mend: put the value in quotes, or write it out in full',
    ],
  },
  {
    file: 'alternator.yaml',
    says: [
      '13:45 error: the alternator holds 12 V, but a system of 12 V is charged with about 14.2 V. Mend: give the volts that its regulator holds, or leave volts out',
      '13:62 error: G2 has no terminal B+, without which it does nothing. Mend: add B+ to the list',
      '14:34 error: F1 has no terminal 49a, without which it does nothing. Mend: add 49a to the list',
    ],
  },
  {
    file: 'anchor.yaml',
    says: [
      '3:8 error: & at the start of a value is a YAML anchor, which is not used here. Mend: put the value in quotes, or delete the &',
    ],
  },
  {
    file: 'bad-colour.yaml',
    says: [
      '23:65 error: “RED” will not do for colour of wire 1. Mend: write IEC 60757 letters, one to three colours joined like RDBU: BK BN RD OG YE GN BU VT GY WH PK GD TQ SR',
    ],
  },
  {
    file: 'bad-indent.yaml',
    says: [
      '19:1 error: this line is not indented like its neighbours. Mend: start it in the same column as the lines it belongs with',
    ],
  },
  {
    file: 'bad-part-id.yaml',
    says: [
      '19:3 error: “left lamp” cannot be used as a name here. Mend: use a short id such as F4 or X3: a letter, then letters, digits, - or _ (16 at most)',
    ],
  },
  {
    file: 'battery-not-nominal.yaml',
    says: ['14:30 error: the battery has 25 V, but nominal says 12 V. Mend: correct one of the two'],
  },
  {
    file: 'brace-not-closed.yaml',
    says: ['25:5 error: a { is opened here and never closed. Mend: add the closing }'],
  },
  {
    file: 'breaker-reset.yaml',
    says: [
      '13:44 error: reset of F1 cannot be “hand”. Mend: use one of: automatic, manual',
      '14:14 error: there is no kind of part called “fuseable link”. Mend: did you mean fusible link?',
      '15:39 error: terminal 2 of F3 cannot be “49b”. Mend: did you mean 49a?',
    ],
  },
  {
    file: 'catalogue.yaml',
    says: [
      '12:31 error: the catalogue has no lamp “P21”. Mend: did you mean P21W?',
      '13:31 error: the catalogue has no lamp “ISO mini”. Mend: ISO mini is a relay: correct type or name',
      '14:31 error: W16W is made for 12 V, but this lamp gets 24 V. Mend: choose another one, or give its values in place of catalogue',
      '15:36 error: H4 says R5W, which gives its watts, and watts as well. Mend: delete one of the two',
      '16:32 error: the catalogue has no motor “fan”. Mend: use one of: washer pump, wiper motor, rear wiper motor, radiator fan, large radiator fan, blower, small blower, window motor, lock motor, mirror motor, seat motor, fuel pump, …',
    ],
  },
  {
    file: 'comma-missing.yaml',
    says: [
      '19:39 error: two “name: value” entries run together here. Mend: put a comma between them, or put quotes around a value that contains a colon',
    ],
  },
  {
    file: 'control-characters.yaml',
    says: [
      '3:12 error: an invisible control character stands here. Mend: delete it and type the line again; save the file as plain text',
    ],
  },
  {
    file: 'costs-misspelt.yaml',
    says: ['32:3 error: costs has no entry called “prob”. Mend: did you mean probe?'],
  },
  {
    file: 'costs-nothing.yaml',
    says: [
      '32:10 error: probe (a reading with one probe on the battery, or a test lamp) takes some time. Mend: write at least 3 s',
      '34:11 error: with a labour rate of 0 no price can be weighed against minutes. Mend: write what an hour of work costs, like 60',
      '35:11 error: “5” has no unit. Mend: add the unit: 5 min',
    ],
  },
  {
    file: 'decimal-comma.yaml',
    says: [
      '23:37 error: the comma before “5 mm2” cuts wire 1 short. Mend: inside { } a comma ends an entry: write a decimal point (0.75) instead of a decimal comma',
    ],
  },
  {
    file: 'directive.yaml',
    says: [
      '1:1 error: a line that begins with % is a YAML directive, which is not used here. Mend: delete the line',
    ],
  },
  {
    file: 'duplicate-key.yaml',
    says: [
      '12:3 error: “fuse box” is written twice in the same group. Mend: delete one of the two, or give it another name',
    ],
  },
  {
    file: 'empty-value.yaml',
    says: ['4:1 error: nothing is written after nominal. Mend: write the system voltage, like 12 V'],
  },
  {
    file: 'empty.yaml',
    says: ['1:1 error: the file is empty. Mend: start from one of the circuits that come with the program'],
  },
  {
    file: 'escape-in-name.yaml',
    says: [
      '16:26 error: an invisible control character is hidden in name of H1. Mend: write it on one line, and delete the backslash and what belongs to it',
    ],
  },
  {
    file: 'escape-in-quotes.yaml',
    says: ['4:10 error: “\u001b[31m12\u202e V” is not a voltage. Mend: write it like 12 V'],
  },
  {
    file: 'frames.yaml',
    says: [
      '13:30 error: a frame cannot be called “body”, which means something else here. Mend: leave frame out for a ground on the body',
      '15:30 error: a frame cannot be called “G1”, which means something else here. Mend: choose another name, like trailer',
      '16:31 error: no ground point is bolted to a frame called “trialer”. Mend: did you mean trailer?',
      '16:62 error: key has no position “in”. Mend: did you mean on?',
    ],
  },
  {
    file: 'ground-as-filament.yaml',
    says: [
      '16:49 error: 31 is the ground terminal of lamp H1. Mend: use the feed terminal, such as 54 or 58',
      '23:23 error: H1 has no terminal or pin “1”. Mend: did you mean H1.31?',
    ],
  },
  {
    file: 'ground-with-terminal.yaml',
    says: ['29:23 error: GP2 is a ground and has no terminals. Mend: write only GP2'],
  },
  {
    file: 'just-text.yaml',
    says: [
      '1:1 error: the file is the text “hello there”. Mend: write a circuit: controls, places, parts and the wires between them',
    ],
  },
  {
    file: 'key-missing.yaml',
    says: [
      '26:5 error: wire 4 has no “length”. Mend: add length: followed by a number with its unit, like 2 m',
    ],
  },
  {
    file: 'list-for-parts.yaml',
    says: [
      '5:1 error: parts is a list. Mend: write the parts by id, like F4: {type: fuse, rating: 10 A, place: fuse box}',
    ],
  },
  {
    file: 'load-ratings.yaml',
    says: [
      '13:3 error: Y1 has none of amps, watts and ohms. Mend: give one of them, as on the part: amps: 5 A, watts: 60 W or ohms: 12 ohm',
      '14:35 error: Y2 has both amps and ohms. Mend: give one of them, as on the part: amps: 5 A, watts: 60 W or ohms: 12 ohm',
      '15:3 error: E1 has neither amps nor watts. Mend: give one of them, as on the part: amps: 5 A or watts: 60 W',
      '16:33 error: B1 has both amps and watts. Mend: give one of them, as on the part: amps: 5 A or watts: 60 W',
      '17:51 error: a resistor cannot join 1 to itself. Mend: name two terminals',
      '17:97 error: “5 A” is a current, not a resistance. Mend: write it like 85 ohm',
    ],
  },
  {
    file: 'long-line.yaml',
    says: [
      '5:1 error: the file has no entry called “words”. Mend: use one of: circuit, title, about, nominal, controls, places, parts, wires, costs, never-probe',
    ],
  },
  {
    file: 'misspelt-key.yaml',
    says: ['19:32 error: H1 has no entry called “wats”. Mend: did you mean watts?'],
  },
  {
    file: 'misspelt-section.yaml',
    says: ['9:1 error: the file has no entry called “place”. Mend: did you mean places?'],
  },
  {
    file: 'module-inputs.yaml',
    says: [
      '19:17 error: input 1 is pulled up to the reference, but A1 has none. Mend: add reference: and its terminal to A1, or write pull: up',
      '20:37 error: input 2 of A1 would count as low up to 3 V but as high from 2 V. Mend: give low fewer volts than high',
      '21:18 error: input 3 reads “pressed” both high and low. Mend: give two different words',
    ],
  },
  {
    file: 'module-outputs-rules.yaml',
    says: [
      '21:28 error: A1 has no input “3”. Mend: did you mean 2?',
      '22:7 error: A1 has the terminal 2 twice. Mend: give each terminal one duty and a name of its own',
      '23:46 error: output 9 of A1 would shut down at 2 A and below, and at 1 A and above. Mend: give open-load far fewer amperes than limit',
      '24:30 error: 120 % is too large to be true. Mend: check the number and its unit',
      '26:13 error: A1 would draw more asleep than awake. Mend: correct one of the two',
      '27:3 error: A2 has the terminal 30 twice. Mend: give each terminal one duty and a name of its own',
      '27:58 error: A2 has 9 outputs of which nothing says when they are on; more than 8 cannot be followed. Mend: add on: with the inputs that switch them, or draw fewer outputs',
    ],
  },
  {
    file: 'module-outputs.yaml',
    says: [
      '22:17 error: side of output 8 of A1 cannot be “up”. Mend: use one of: high, low',
      '25:7 error: output 11 of A1 has no “side”. Mend: add side: followed by high (joins the terminal to the supply) or low (joins it to ground)',
    ],
  },
  {
    file: 'module-reads.yaml',
    says: [
      '13:3 error: A1 has no “ground”. Mend: add ground: followed by its ground terminal, like 31',
      '13:66 error: “ohms” will not do for reads of input 1 of A1. Mend: write what a scan tool shows: volts, or words like {high: released, low: pressed}',
      '13:77 error: reads of input 2 of A1 has no “low”. Mend: add low: followed by the word that a scan tool shows, like pressed',
      '13:112 error: pull of input 3 of A1 cannot be “left”. Mend: use one of: up, down, reference',
    ],
  },
  {
    file: 'never-probe-unknown.yaml',
    says: ['22:15 error: there is no part, point or wire called “X4”. Mend: did you mean X3?'],
  },
  {
    file: 'no-battery.yaml',
    says: [
      '13:1 error: there is no battery among the parts. Mend: add one, like G1: {type: battery, place: battery}, and wire its terminals 30 and 31',
      '23:12 error: G1 has no terminal or pin “30”. Mend: use one of: G1.1, G1.2',
      '24:12 error: G1 has no terminal or pin “31”. Mend: did you mean G1.1?',
    ],
  },
  {
    file: 'no-side.yaml',
    says: [
      '27:12 error: “X3.1” does not say which side of connector X3. Mend: write X3.1h for the harness side or X3.1c for the component side',
    ],
  },
  {
    file: 'no-space-after-colon.yaml',
    says: ['4:8 error: there is no space after “nominal:”. Mend: put a space after the colon'],
  },
  {
    file: 'no-space-in-braces.yaml',
    says: [
      '16:20 error: F1 has no entry called “name:lamp fuse”. Mend: put a space after the colon: name: lamp fuse',
    ],
  },
  {
    file: 'no-terminal.yaml',
    says: ['27:23 error: “H1” does not say which terminal of H1. Mend: use one of: H1.1, H1.31'],
  },
  {
    file: 'no-unit.yaml',
    says: ['16:45 error: “10” has no unit. Mend: add the unit: 10 A'],
  },
  {
    file: 'no-way-to-battery.yaml',
    says: [
      '22:3 error: lamp (H1.1) has no way to battery +, even with every switch closed. Mend: follow the wires from H1.1: they must reach battery 30',
    ],
  },
  {
    file: 'no-way-to-ground.yaml',
    says: [
      '19:3 error: lamp (H1.1) has no way to ground, even with every switch closed. Mend: follow the wires from H1.31: they must reach a ground point or battery 31',
    ],
  },
  {
    file: 'not-utf-8.yaml',
    says: [
      '3:13 error: a character here is not UTF-8. Mend: type it again and save the file from your editor as UTF-8',
    ],
  },
  {
    file: 'nothing-under-parts.yaml',
    says: [
      '2:1 error: the file has no “parts”. Mend: add parts: followed by the parts by id, like F4: {type: fuse, rating: 10 A, place: fuse box}',
      '13:1 error: the file has no entry called “places2”. Mend: did you mean places?',
    ],
  },
  {
    file: 'odd-rating.yaml',
    says: [
      '11:28 advice: F1: no fuse is made with 17 A. Mend: read the number on it again; the next ones have 16 A and 20 A',
    ],
  },
  {
    file: 'one-position.yaml',
    says: [
      '7:3 error: key has too few entries. Mend: write a list of positions, the one at rest first, like [off, on]',
    ],
  },
  {
    file: 'pin-half-wired.yaml',
    says: [
      '18:3 error: pin X3.2 has a wire on its component side only. Mend: add the wire that goes on from X3.2h',
      '20:3 error: no wire ends on tail ground (GP2). Mend: add its wires, or delete it',
    ],
  },
  {
    file: 'quote-not-closed.yaml',
    says: ['3:8 error: a quote is opened here and never closed. Mend: add the closing quote'],
  },
  {
    file: 'relay-never-drops.yaml',
    says: [
      '19:45 error: H1 would drop out at 7 V but pull in only at 6 V. Mend: give a drop-out voltage well below the pull-in voltage',
      '27:23 error: H1 has no terminal or pin “1”. Mend: use one of: H1.30, H1.85, H1.86, H1.87',
      '28:12 error: H1 has no terminal or pin “31”. Mend: did you mean H1.30?',
    ],
  },
  {
    file: 'reversed-text.yaml',
    says: ['19:32 error: H1 has no entry called “w\u202eatts”. Mend: did you mean watts?'],
  },
  {
    file: 'second-document.yaml',
    says: [
      '22:1 error: a second document begins here. Mend: keep one circuit or session in a file: delete the --- line',
    ],
  },
  {
    file: 'senders.yaml',
    says: [
      '13:37 error: B1 does not say how many ohms it has in position “half” of tank. Mend: add half: 100 ohm',
      '14:70 error: “100 V” is a voltage, not a resistance. Mend: write it like 85 ohm',
      '14:77 error: tank has no position “fill”. Mend: did you mean full?',
      '15:31 error: B3 is worked by “tonk”, but there is no control of that name. Mend: did you mean tank?',
    ],
  },
  {
    file: 'several-at-once.yaml',
    says: [
      '16:45 error: “10 V” is a voltage, not a current. Mend: write it like 10 A',
      '17:43 error: there is no place called “fusebox”. Mend: did you mean fuse box?',
      '26:22 error: X3 has no terminal or pin “9h”. Mend: did you mean X3.1h?',
    ],
  },
  {
    file: 'short-circuit.yaml',
    says: [
      '14:3 error: wires join battery + straight to battery −. Mend: find the wire that closes this short circuit and correct its ends',
    ],
  },
  {
    file: 'small-fuse.yaml',
    says: [
      '13:28 advice: fuse F1 is 1 A, but its loads can draw 1.8 A together: H1. Mend: check the rating and the watts; a larger fuse also needs a thicker wire',
    ],
  },
  {
    file: 'tab-indent.yaml',
    says: ['16:1 error: a tab stands at the start of this line. Mend: indent with spaces, two for each step'],
  },
  {
    file: 'tag.yaml',
    says: [
      '3:8 error: ! at the start of a value is a YAML tag, which is not used here. Mend: put the value in quotes, or delete the !',
    ],
  },
  {
    file: 'terminal-wired-to-nothing.yaml',
    says: [
      '14:3 error: terminal G1.31 of battery G1 is wired to nothing. Mend: add a wire from or to G1.31',
      '15:3 error: no wire ends on ground GP1. Mend: add its wires, or delete it',
    ],
  },
  {
    file: 'thousands-comma.yaml',
    says: ['26:50 error: “1,000” can be read as 1000 or as 1.000. Mend: write 1000 or 1.000'],
  },
  {
    file: 'too-deep.yaml',
    says: [
      '3:70 error: more than 64 lists or groups stand inside each other here. Mend: close the [ and { that were opened, or indent less',
    ],
  },
  {
    file: 'too-many-volts.yaml',
    says: [
      '4:10 error: 400 V is too large to be true. Mend: this program is for systems up to 60 V DC; leave anything above to people trained for high voltage',
    ],
  },
  {
    file: 'twin-ids.yaml',
    says: [
      '20:3 error: “h1” and “H1” differ only in capital letters. Mend: give one of them another name',
      '29:23 error: there is no part called “GP2”. Mend: did you mean GP1?',
    ],
  },
  {
    file: 'two-batteries.yaml',
    says: [
      '17:3 error: G2 is a second battery beside G1. Mend: draw the batteries as one with their joint voltage',
    ],
  },
  {
    file: 'two-colons.yaml',
    says: [
      '3:8 error: two names with a colon stand on one line. Mend: put quotes around a value that contains a colon, or put each “name: value” on a line of its own',
    ],
  },
  {
    file: 'two-wires-on-one-terminal.yaml',
    says: [
      '29:12 error: F1.2 already has wire W3 on it, and it takes only one. Mend: correct this end, or join the wires in a splice: SP9: {type: splice, place: …}',
    ],
  },
  {
    file: 'type-as-list.yaml',
    says: [
      '7:8 error: type of F1 is not a word. Mend: write one of: battery, alternator, fuse, fusible link, breaker, switch, relay, flasher, lamp, LED lamp, horn, buzzer, motor, heater, solenoid, load, resistor, resistor pack, sender, thermistor, diode, module, ground, coupling, splice, connector',
      '8:3 error: F2 has no “type”. Mend: add type: and one of: battery, alternator, fuse, fusible link, breaker, switch, relay, flasher, lamp, LED lamp, horn, buzzer, motor, heater, solenoid, load, resistor, resistor pack, sender, thermistor, diode, module, ground, coupling, splice, connector',
      '9:3 error: F3 is the text “fuse”. Mend: write a part like {type: fuse, rating: 10 A, place: fuse box}',
    ],
  },
  {
    file: 'type-missing.yaml',
    says: [
      '19:3 error: H1 has no “type”. Mend: add type: and one of: battery, alternator, fuse, fusible link, breaker, switch, relay, flasher, lamp, LED lamp, horn, buzzer, motor, heater, solenoid, load, resistor, resistor pack, sender, thermistor, diode, module, ground, coupling, splice, connector',
    ],
  },
  {
    file: 'unknown-control.yaml',
    says: [
      '17:31 error: S1 is worked by “kye”, but there is no control of that name. Mend: did you mean key?',
    ],
  },
  {
    file: 'unknown-part.yaml',
    says: ['26:22 error: there is no part called “X33”. Mend: did you mean X3?'],
  },
  {
    file: 'unknown-pin.yaml',
    says: ['29:12 error: X3 has no terminal or pin “3h”. Mend: did you mean X3.1h?'],
  },
  {
    file: 'unknown-place.yaml',
    says: ['19:52 error: there is no place called “tial”. Mend: did you mean tail?'],
  },
  {
    file: 'unknown-position.yaml',
    says: ['17:91 error: key has no position “start”. Mend: use one of: off, on'],
  },
  {
    file: 'unknown-type.yaml',
    says: ['16:14 error: there is no kind of part called “fusse”. Mend: did you mean fuse?'],
  },
  {
    file: 'unknown-unit.yaml',
    says: ['19:39 error: “WW” is not a unit of power. Mend: write it like 21 W'],
  },
  {
    file: 'utf-16.yaml',
    says: ['1:1 error: the file is saved as UTF-16. Mend: save it again from your editor as UTF-8'],
  },
  {
    file: 'volts-for-rating.yaml',
    says: ['16:45 error: “10 V” is a voltage, not a current. Mend: write it like 10 A'],
  },
  {
    file: 'watts-and-filaments.yaml',
    says: [
      '19:45 error: H1 has both watts and filaments. Mend: give catalogue: P21W (the name on its cap), or watts: 21 W, or filaments: {54: 21 W, 58: 5 W} for two',
      '27:23 error: H1 has no terminal or pin “1”. Mend: did you mean H1.31?',
    ],
  },
  {
    file: 'watts-missing.yaml',
    says: [
      '16:3 error: H1 has neither watts nor filaments. Mend: give catalogue: P21W (the name on its cap), or watts: 21 W, or filaments: {54: 21 W, 58: 5 W} for two',
    ],
  },
  {
    file: 'weak-spots.yaml',
    says: [
      '13:69 error: 300 is too large to be true. Mend: check the number and its unit',
      '16:73 error: “often” is not a number of times. Mend: write it like 3',
    ],
  },
  {
    file: 'wire-id-of-part.yaml',
    says: ['25:58 error: the id “H1” is already that of part H1. Mend: choose another id'],
  },
  {
    file: 'wire-to-itself.yaml',
    says: ['24:21 error: wire W2 goes from GP1 back to GP1. Mend: correct one of its ends'],
  },
];
