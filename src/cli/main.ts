/** The command line: which words start which command, and what each outcome means as an exit status. */
import { Command, CommanderError } from 'commander';
import { JournalError } from '../files/journal.js';
import { Failure } from './failure.js';
import { STATUS, type Io, type Status } from './io.js';
import { createOutput, type OutputFlags } from './output.js';
import type { Context } from './context.js';
import { VERSION } from './version.js';
import { classroom } from './classroom.js';
import type { Stand } from './stand.js';

const CIRCUIT = 'circuit file, or the name of one that comes with the program';

/** Flags of `make`, one for each question (circuit/own/questions.ts, which is not loaded for other commands). */
const OWN_FLAGS: Readonly<Record<string, string>> = {
  title: 'what the circuit is called',
  volts: 'of the system: 6, 12 or 24',
  loads: 'like "2 stop lamps 21 W, horn 5 A"',
  switch: 'what switches them on, like "brake pedal"',
  positions: 'of the switch, the one at rest first: "off, on"',
  helper: 'must somebody hold it: yes, no',
  through: 'what carries the current: switch, relay, module',
  side: 'where it is switched: feed, ground',
  live: 'when the feed is live: always, key',
  also: 'another load on the same fuse, like "horn 5 A"',
  fuse: 'its rating, like 15 A',
  grounds: 'how many ground points the loads share',
  connectors: 'where plug connectors are: none, loom, loads, both',
  length: 'of the wire from the switch to the loads, like "4 m"',
  size: 'of that wire, like "1.5 mm2" or "AWG 16"',
};

/**
 * Runs one command to its end and returns the exit status: 0 fine, 1 a negative result, 2 could not run, 130 interrupted.
 * Never throws for what a person can cause, never ends the process.
 */
export async function main(argv: readonly string[], io: Io, stand: Stand = {}): Promise<number> {
  let status: Status = STATUS.ok;
  const program = programFor(io, stand, (ended) => (status = ended));
  try {
    await program.parseAsync(argv, { from: 'user' });
    return status;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? STATUS.ok : STATUS.cannotRun;
    const output = createOutput(io, program.opts<OutputFlags>());
    if (error instanceof Failure) {
      output.complain(error.message, error.mend);
      return error.status;
    }
    if (error instanceof JournalError) {
      output.complain(error.message, error.mend);
      return STATUS.cannotRun;
    }
    output.complain(
      `This is a mistake in the program: ${String(error)}`,
      'What was recorded is safe. Please report it.',
    );
    if (program.opts<{ debug?: boolean }>().debug && error instanceof Error) output.say(error.stack ?? '');
    return STATUS.cannotRun;
  }
}

function programFor(io: Io, stand: Stand, end: (status: Status) => void): Command {
  const program = new Command('knowngood')
    .description(
      'Records a vehicle electrical fault-finding session and reasons about what each reading proves.',
    )
    .version(VERSION, '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .option('--no-color', 'no colour')
    .option('--ascii', 'print only ASCII characters')
    .option('--debug', 'on a mistake in the program, print where it happened')
    .exitOverride()
    .configureOutput({
      writeOut: (text) => void io.stdout.write(text),
      writeErr: (text) => void io.stderr.write(text),
    });
  const context = (costs: string | undefined): Context => ({
    io,
    output: createOutput(io, program.opts<OutputFlags>()),
    costs,
  });
  /** Commands are loaded when they are called: start-up time is most of the time of a short one. */
  const run =
    <T extends unknown[]>(work: (context: Context, ...args: T) => Promise<Status>) =>
    async (...args: unknown[]): Promise<void> =>
      // Arguments, then the flags, then the command itself.
      end(await work(context((args.at(-2) as { costs?: string }).costs), ...(args as T)));
  const costs = (command: Command): Command =>
    command.option('--costs <file>', 'your own minutes and labour rate (YAML; see schema costs)');
  const session = (command: Command): Command =>
    costs(command)
      .option('--session <file>', 'journal of the session (left out: the newest in the default folder)')
      .option('--circuit <file>', 'circuit file, where it has moved');
  const json = (command: Command): Command => command.option('--json', 'answer as one JSON object');
  type Flags = Record<string, never>;

  costs(program.command('start'))
    .argument('<circuit>', CIRCUIT)
    .description('begin a session, step by step')
    .option('--session <file>', 'write the journal to this new file')
    .option('--answers <file>', 'read the lines from this file instead of asking')
    .action(
      run(async (ctx, circuit: string, flags: Flags) =>
        (await import('./commands/start.js')).start(
          ctx,
          circuit,
          { ...flags, ...program.opts() },
          stand.asker,
        ),
      ),
    );
  session(program.command('resume').argument('[session]', 'journal to go on with'))
    .description('go on with a session')
    .option('--answers <file>', 'read the lines from this file instead of asking')
    .option('--exercise <file>', 'exercise file of an attempt, where it has moved')
    .action(
      run(async (ctx, file: string | undefined, flags: Flags) =>
        (await import('./commands/start.js')).resume(
          ctx,
          { ...(file === undefined ? {} : { session: file }), ...flags, ...program.opts() },
          stand.asker,
        ),
      ),
    );
  json(program.command('sessions'))
    .description('list the sessions in the default folder')
    .action(run(async (ctx, flags: Flags) => (await import('./commands/sessions.js')).sessions(ctx, flags)));
  json(program.command('check').argument('<file...>', 'circuit, exercise or session files (YAML)'))
    .description('check circuit, exercise and hand-written session files; advice on circuits')
    .option('--strict', 'advice counts as a mistake: status 1')
    .action(
      run(async (ctx, files: string[], flags: Flags) =>
        (await import('./commands/check.js')).check(ctx, files, flags),
      ),
    );
  json(program.command('readings').argument('<circuit>', CIRCUIT))
    .description('what a voltmeter would read, healthy or with a fault')
    .option('--when <control position...>', 'control positions other than at rest, each in quotes')
    .option('--red <point>', 'one point (left out: all)')
    .option('--black <point>', 'the other probe (left out: battery negative)')
    .option('--fault <id>', 'with this fault, like "X3.1 resistance"')
    .option('--severity <number>', 'its ohms, volts or watts (left out: the worst)')
    .action(
      run(async (ctx, circuit: string, flags: Flags) =>
        (await import('./commands/readings.js')).readings(ctx, circuit, flags),
      ),
    );
  const own = program
    .command('make')
    .argument('[file]', 'name of the new circuit file; left out: asked')
    .description('a circuit of your own, by about fifteen questions')
    .option('--answers <file>', 'lines like "loads: 2 lamps 21 W" instead of questions')
    .option('--yes', 'ask nothing: Enter to every question that no flag answers')
    .option('--overwrite', 'write over a file that is there');
  for (const [flag, words] of Object.entries(OWN_FLAGS)) own.option(`--${flag} <answer>`, words);
  own.action(
    run(async (ctx, file: string | undefined, flags: Flags) =>
      (await import('./commands/make.js')).make(ctx, file, { ...flags, ...program.opts() }, stand.asker),
    ),
  );
  program
    .command('adapt')
    .argument('<circuit>', CIRCUIT)
    .argument('[change...]', 'changes, each in quotes: "set H1 watts 5 W", "connector X9 in W4"')
    .description('a changed copy of a circuit; its comments stay')
    .option('--add-connector <name...>', 'wires and a new id, like W4 X9')
    .option('--add-lamp <word...>', 'like H9 5 W SP3 GP3')
    .option('--set <part.key=value...>', 'like "H1.watts=5 W"')
    .option('--rename <old=new...>', 'like H1=H7')
    .option('--out <file>', 'the new file (left out: it is printed)')
    .option('--overwrite', 'write over a file that is there')
    .action(
      run(async (ctx, circuit: string, changes: string[], flags: Flags) =>
        (await import('./commands/adapt.js')).adapt(
          ctx,
          circuit,
          changes,
          { ...flags, ...program.opts() },
          stand.asker,
        ),
      ),
    );
  json(program.command('table').argument('<circuit>', CIRCUIT))
    .description('the readings at every point in every control position, as a table')
    .option('--when <control position...>', 'controls that stay put, each in quotes; the others are varied')
    .option('--at <point...>', 'only these points or parts')
    .option('--black <point>', 'the other probe (left out: battery negative)')
    .option(
      '--fault <id...>',
      'also with these faults: "F4:link open"; a part = each of its own; all = every one',
    )
    .option('--severity <number>', 'their ohms, volts or watts (left out: the worst)')
    .option('--format <form>', 'text, csv or markdown', 'text')
    .option('--out <file>', 'write it to this new file')
    .action(
      run(async (ctx, circuit: string, flags: Flags) =>
        (await import('./commands/table.js')).table(ctx, circuit, flags),
      ),
    );
  program
    .command('draw')
    .argument(
      '[name...]',
      'circuit, as a file or a name (with --session: none), then parts to which the drawing keeps',
    )
    .description('the circuit as a drawing; with a session, what is suspected and cleared in it')
    .option('--when <control position...>', 'control positions other than at rest, each in quotes')
    .option('--volts', 'with the volts of a healthy circuit at each point')
    .option('--session <file>', 'mark what stands in this session')
    .option('--circuit <file>', 'circuit file of the session, where it has moved')
    .option('--format <form>', 'text or svg', 'text')
    .option('--out <file>', 'write it to this new file')
    .action(
      run(async (ctx, names: string[], flags: Flags) =>
        (await import('./commands/draw.js')).draw(ctx, names, flags),
      ),
    );
  costs(program.command('tree').argument('<circuit>', CIRCUIT))
    .argument('[line...]', 'what fails, as it would be typed, each line in quotes')
    .description('a fault-finding tree for a concern, to be printed')
    .option('--format <form>', 'text, markdown or dot', 'text')
    .option('--depth <number>', 'most tests one after the other')
    .action(
      run(async (ctx, circuit: string, lines: string[], flags: Flags) =>
        (await import('./commands/tree.js')).tree(ctx, circuit, lines, flags),
      ),
    );
  json(program.command('circuits'))
    .description('list the circuits that come with the program')
    .action(run(async (ctx, flags: Flags) => (await import('./commands/circuits.js')).circuits(ctx, flags)));
  json(program.command('catalogue').argument('[words...]', 'only entries with these words, like lamp 24 V'))
    .description('list the parts that a circuit file may name by what is printed on them')
    .action(
      run(async (ctx, words: string[], flags: Flags) =>
        (await import('./commands/catalogue.js')).catalogue(ctx, words, flags),
      ),
    );
  program
    .command('demo')
    .description('play an invented session to its report')
    .action(run(async (ctx) => (await import('./commands/demo.js')).demo(ctx)));

  json(program.command('new').argument('<circuit>', CIRCUIT))
    .description('begin a session without a conversation')
    .option('--session <file>', 'write the journal to this new file')
    .action(
      run(async (ctx, circuit: string, flags: Flags) =>
        (await import('./commands/record.js')).begin(ctx, circuit, flags),
      ),
    );
  json(
    session(
      program
        .command('record')
        .argument('<line...>', 'as typed, each in quotes: "fails H1 when gear reverse" "volts X3.1h 11.4"'),
    ),
  )
    .description('record lines; all of them or none')
    .option('--yes', 'cautions that ask for a typed yes are heeded')
    .action(
      run(async (ctx, lines: string[], flags: Flags) =>
        (await import('./commands/record.js')).record(ctx, lines, flags),
      ),
    );
  json(
    session(program.command('undo').argument('[number]', 'event that counts no more (left out: the last)')),
  )
    .description('take an event back')
    .action(
      run(async (ctx, number: string | undefined, flags: Flags) =>
        (await import('./commands/record.js')).undo(ctx, number, flags),
      ),
    );

  json(session(program.command('redraw').argument('[words...]', 'what was wrong in the drawing')))
    .description('record that the circuit file was corrected; the findings stay')
    .action(
      run(async (ctx, words: string[], flags: Flags) =>
        (await import('./commands/redraw.js')).redraw(ctx, words, flags),
      ),
    );

  json(session(program.command('suspects')))
    .description('what is still suspected')
    .option('--thorough', 'judge every pair of faults, and threes where no pair fits (takes minutes)')
    .action(run(async (ctx, flags: Flags) => (await import('./commands/ask.js')).suspects(ctx, flags)));
  json(session(program.command('next').argument('[test...]', 'a test of your own: volts X3.1h')))
    .description('the suggested test, or what a test of your own would bring')
    .action(
      run(async (ctx, own: string[], flags: Flags) =>
        (await import('./commands/ask.js')).next(ctx, own, flags),
      ),
    );
  json(session(program.command('why').argument('<part>', 'part or wire')))
    .description('why a part is suspected or not')
    .action(
      run(async (ctx, name: string, flags: Flags) =>
        (await import('./commands/ask.js')).why(ctx, name, flags),
      ),
    );
  json(session(program.command('report')))
    .description('the repair report')
    .option('--markdown', 'as Markdown')
    .option('--no-personal', "without names and the vehicle's identity")
    .action(run(async (ctx, flags: Flags) => (await import('./commands/ask.js')).report(ctx, flags)));

  json(program.command('replay').argument('<file...>', 'journals, sessions written by hand (.yaml), folders'))
    .description('reason again about recorded sessions and compare with what they recorded and expect')
    .option('--format <form>', 'text, json, junit or tap')
    .option('--output <file>', 'write that form to this file, and the text to the screen')
    .option('--jobs <number>', 'threads (left out: by the processors and the number of sessions)')
    .option('--shard <i/n>', 'only the i-th of n shares of the sessions')
    .option('--circuits <folder>', 'where the circuits of journals are, if not where they were recorded')
    .option(
      '--before <folder>',
      'an earlier state of this folder: tells which values of a drawing were changed',
    )
    .option('--strict', 'what is only noted counts as a difference')
    .option('--update', 'accept what comes out now: rewrites expectations, adds to journals')
    .action(
      run(async (ctx, files: string[], flags: Flags) =>
        (await import('./commands/replay.js')).replay(ctx, files, flags),
      ),
    );
  classroom(program, run, costs, stand);
  program
    .command('schema')
    .argument('<which>', 'circuit, session, costs, exercise or overrides')
    .description('print the JSON Schema of a kind of file')
    .action(run(async (ctx, which: string) => (await import('./commands/schema.js')).schema(ctx, which)));
  return program;
}
