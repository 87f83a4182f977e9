/** Every broken session file in broken/, and all that must be said about it: line:column, what is wrong, how to mend it. */
export const BROKEN: readonly { readonly file: string; readonly says: readonly string[] }[] = [
  {
    file: 'after-a-slip.yaml',
    says: ['6:17 error: "l.4" is not a unit of volts. Mend: for example: 11.4, 11,4 or 450mV'],
  },
  {
    file: 'already-unplugged.yaml',
    says: [
      '7:5 error: X3 is unplugged already. Mend: to connect it again: plug X3',
      '8:5 error: X4 is plugged already. Mend: to part it: unplug X4',
    ],
  },
  {
    file: 'broken-circuit.yaml',
    says: [
      '4:10 error: the circuit of this session cannot be used: ../unusable-circuit.yaml:27:12: “X3.1” does not say which side of connector X3. Mend: write X3.1h for the harness side or X3.1c for the component side',
    ],
  },
  {
    file: 'colon-in-step.yaml',
    says: [
      '7:5 error: the colon makes this line a name with a value. Mend: put the whole line in quotes: "skip volts X3.1h: cannot reach"',
    ],
  },
  {
    file: 'event-mistakes.yaml',
    says: [
      '6:12 error: type of step 1 cannot be “fund”. Mend: did you mean found?',
      '7:35 error: kind of reading of step 2 cannot be “vlts”. Mend: did you mean volts?',
      '8:42 error: reading of step 3 has no entry called “rd”. Mend: did you mean red?',
      '9:19 error: reading of step 4 has no “value”. Mend: add value: followed by one of: lit, dim, off, flickers, runs, slow, stopped, sounds, weak, silent, clicks, chatters, flashes, flashes fast, hot, lukewarm, cold, works, dead',
      '10:68 error: “soon” will not do for minutes of action of step 5. Mend: write minutes as a plain number, like 15',
    ],
  },
  {
    file: 'event-values.yaml',
    says: [
      '6:73 error: "12.1 ohm" is in ohms, but this reading is in volts. Mend: type the volts, or start the line with ohms',
      '7:5 error: this circuit has no probe point "F9.2". Mend: did you mean F7.2?',
      '8:5 error: the session is open already. Mend: record the next step',
    ],
  },
  {
    file: 'expect-names.yaml',
    says: [
      '8:18 error: this circuit has no part or wire “X9.1 resistance”. Mend: use one of: G1, GP1, SP1, S1, F7, S2, X2, SP2, X3, X4, H1, H2, …',
      '9:9 error: this circuit has no part or wire “GP22”. Mend: did you mean GP2?',
      '10:13 error: this circuit has no part or wire “X2.1”. Mend: name the whole part: X2',
    ],
  },
  {
    file: 'expect-shapes.yaml',
    says: [
      '8:3 error: expect has no entry called “tops”. Mend: did you mean top?',
      '9:3 error: not blamed of expect is the text “F7”. Mend: write a list of parts the report must not call bad, like [S2]',
      '10:9 error: fits of expect cannot be “maybe”. Mend: use one of: true, false',
    ],
  },
  {
    file: 'future-format.yaml',
    says: [
      '2:10 error: this session is written in format 2; this program knows format 1. Mend: use a newer program, or write session: 1 if it is the format you know',
    ],
  },
  {
    file: 'misspelt-key.yaml',
    says: ['3:1 error: the file has no entry called “titel”. Mend: did you mean title?'],
  },
  {
    file: 'misspelt-verb.yaml',
    says: [
      '7:5 error: a line cannot start with "vots". Mend: did you mean volts?',
      '8:11 error: X3 has no point "X3.9h". Mend: it has: X3.1h, X3.1c, X3.2h, X3.2c',
    ],
  },
  {
    file: 'no-such-circuit.yaml',
    says: [
      '4:10 error: the circuit of this session cannot be used: ../../../circuits/reversing-lamp.yaml: there is no such file. Mend: check the name and the folder',
    ],
  },
  {
    file: 'question.yaml',
    says: [
      '7:5 error: a question records nothing. Mend: delete the line; what must come out stands under expect',
    ],
  },
  {
    file: 'quoted-step.yaml',
    says: [
      '6:11 error: there is no event 9. Mend: events are numbered 1 to 1. To see them: list',
      '7:18 error: "11.4 ohm" is in ohms, but this reading is in volts. Mend: type the volts, or start the line with ohms',
    ],
  },
  {
    file: 'step-list.yaml',
    says: [
      '5:11 error: nothing is written after complaint of concern. Mend: write what the customer says',
      '5:24 error: concern has no entry called “colour”. Mend: use one of: complaint, vehicle, odometer, technician, customer, meter, history',
      '7:5 error: step 1 is a list. Mend: write a line as it would be typed, like volts X3.1h 11.4, or an event',
      '8:4 error: nothing is written after step 2. Mend: write a line as it would be typed, like volts X3.1h 11.4, or an event',
    ],
  },
  {
    file: 'steps-missing.yaml',
    says: [
      '2:1 error: the file has no “steps”. Mend: add steps: followed by the steps in the order they happened, each on a line like - volts X3.1h 11.4',
    ],
  },
  {
    file: 'two-documents.yaml',
    says: [
      '7:1 error: a second document begins here. Mend: keep one circuit or session in a file: delete the --- line',
    ],
  },
];
