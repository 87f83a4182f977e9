/** `schema`: the published shapes of the files a person writes. */
import { CIRCUIT_SCHEMA } from '../../circuit/schema.js';
import { COSTS_SCHEMA } from '../../circuit/schema-costs.js';
import { EXERCISE_SCHEMA } from '../../files/exercise-schema.js';
import { OVERRIDES_SCHEMA } from '../../files/override-file.js';
import { SESSION_SCHEMA } from '../../files/session-schema.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { STATUS } from '../io.js';
import { jsonText } from '../output.js';

const SCHEMAS: Readonly<Record<string, unknown>> = {
  circuit: CIRCUIT_SCHEMA,
  session: SESSION_SCHEMA,
  costs: COSTS_SCHEMA,
  exercise: EXERCISE_SCHEMA,
  overrides: OVERRIDES_SCHEMA,
};

export function schema({ output }: Context, which: string): CommandResult {
  if (!Object.hasOwn(SCHEMAS, which))
    return Promise.reject(
      new Failure(
        `there is no schema "${which}"`,
        `There is: ${Object.keys(SCHEMAS)
          .map((name) => `schema ${name}`)
          .join(', ')}.`,
      ),
    );
  output.result(jsonText(SCHEMAS[which]));
  return Promise.resolve(STATUS.ok);
}
