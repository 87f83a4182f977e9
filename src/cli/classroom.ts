/** The commands of the classroom: exercises, practice, marking. */
import type { Command } from 'commander';
import type { Context } from './context.js';
import type { Status } from './io.js';
import type { Stand } from './stand.js';

type Run = <T extends unknown[]>(
  work: (context: Context, ...args: T) => Promise<Status>,
) => (...args: unknown[]) => Promise<void>;
type Flags = Record<string, never>;

export function classroom(
  program: Command,
  run: Run,
  costs: (command: Command) => Command,
  stand: Stand,
): void {
  const exercise = program
    .command('exercise')
    .description('begin an exercise; for the instructor: seal and open one');
  exercise
    .command('start')
    .argument('<file>', 'exercise file, sealed or not')
    .description('begin an attempt on the simulated vehicle')
    .option('--session <file>', 'write the journal to this new file')
    .option('--student <name>', 'whose attempt it is')
    .option('--answers <file>', 'read the lines from this file instead of asking')
    .action(
      run(async (ctx, file: string, flags: Flags) =>
        (await import('./commands/exercise.js')).startExercise(
          ctx,
          file,
          { ...flags, ...program.opts() },
          stand.asker,
        ),
      ),
    );
  for (const [name, what] of [
    ['seal', "write the students' file, in which the fault is sealed"],
    ['open', 'show a sealed exercise as it was written'],
  ] as const)
    exercise
      .command(name)
      .argument('<file>', 'exercise file')
      .description(what)
      .option('--key <phrase>', "the instructor's key phrase, 8 characters or more (needed)")
      .option('--out <file>', 'write to this new file (left out: print it)')
      .action(
        run(async (ctx, file: string, flags: Flags) => {
          const commands = await import('./commands/exercise.js');
          return commands[name === 'seal' ? 'sealExercise' : 'openExercise'](ctx, file, flags);
        }),
      );
  costs(
    program
      .command('practice')
      .argument('<circuit>', 'circuit file, or the name of one that comes with the program'),
  )
    .description('random exercises, each with its marks and the best road beside your own')
    .option(
      '--difficulty <number>',
      '1 a clean break or short, 2 any severity, 3 rare faults too, 4 it comes and goes, 5 two faults',
      '2',
    )
    .option('--seed <number>', 'the same number gives the same exercise (left out: any)')
    .option('--session <file>', 'write the journal to this new file')
    .option('--student <name>', 'whose attempt it is')
    .option('--answers <file>', 'read the lines from this file instead of asking')
    .action(
      run(async (ctx, circuit: string, flags: Flags) =>
        (await import('./commands/practice.js')).practice(
          ctx,
          circuit,
          { ...flags, ...program.opts() },
          stand.asker,
        ),
      ),
    );
  program
    .command('mark')
    .argument('<folder...>', "folders with students' journals, or journals")
    .description('mark the attempts at an exercise')
    .option('--exercise <file...>', 'the exercises that are marked (needed), behind the folders')
    .option('--key <phrase>', "the instructor's key phrase")
    .option('--format <form>', 'text, csv or json', 'text')
    .option('--roads', 'with each step beside the best one (text)')
    .option('--overrides <file>', 'changes of the marks, with their reasons (YAML; see schema overrides)')
    .action(
      run(async (ctx, names: string[], flags: Flags) =>
        (await import('./commands/mark.js')).mark(ctx, names, flags),
      ),
    );
}
