/** Prompts at a real terminal, on stderr so that stdout carries results only. Loaded only when somebody is asked. */
import process from 'node:process';
import type { Io } from '../io.js';
import { Interrupted, type Asker } from './asker.js';

/** @param colour false where the screen is to stay plain */
export async function terminalAsker(io: Io, colour: boolean): Promise<Asker> {
  // The prompt library decides on colour once, when it is loaded, from the environment alone.
  if (!colour) process.env['NO_COLOR'] = '1';
  const { createPromptModule } = await import('inquirer');
  const prompt = createPromptModule({
    input: io.stdin as NodeJS.ReadStream,
    output: io.stderr as NodeJS.WriteStream,
  });
  return {
    person: true,
    async ask(message) {
      try {
        const { line } = await prompt([{ type: 'input', name: 'line', message, theme: { prefix: '' } }]);
        return (line as string).trim();
      } catch (error) {
        if (error instanceof Error && error.name === 'ExitPromptError')
          throw new Interrupted('interrupted', { cause: error });
        throw error;
      }
    },
  };
}
