// The direction rule: data flows circuit -> network -> diagnosis -> planning -> report, and only the shell touches the world.
import tseslint from 'typescript-eslint';

const pure = ['circuit', 'network', 'diagnosis', 'planning', 'session', 'report', 'exercise'];
/** Folders each pure folder may import from (itself always included). */
const mayImport = {
  circuit: [],
  network: ['circuit'],
  session: ['circuit', 'network'],
  diagnosis: ['circuit', 'network', 'session'],
  planning: ['circuit', 'network', 'session', 'diagnosis'],
  report: ['circuit', 'network', 'session', 'diagnosis', 'planning', 'exercise'],
  exercise: ['circuit', 'network', 'session', 'diagnosis', 'planning'],
};
const why = 'Pure folders are a function of their arguments: pass the value in from src/cli or src/files.';

export default tseslint.config(
  { ignores: ['dist', 'node_modules'] },
  ...tseslint.configs.recommended,
  {
    rules: {
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      '@typescript-eslint/no-non-null-assertion': 'off',
    },
  },
  ...pure.map((folder) => ({
    files: [`src/${folder}/**/*.ts`],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            { group: ['node:*', 'chalk', 'inquirer', '@inquirer/*', 'commander'], message: why },
            {
              group: [...pure, 'cli', 'files']
                .filter((other) => other !== folder && !mayImport[folder].includes(other))
                .map((other) => `**/${other}/**`),
              message: `Data flows one way (see DEVELOPERS.md): src/${folder} may import only ${[folder, ...mayImport[folder]].join(', ')}.`,
            },
          ],
        },
      ],
      'no-restricted-globals': [
        'error',
        ...['console', 'process', 'setTimeout', 'setInterval', 'performance'].map((name) => ({
          name,
          message: why,
        })),
      ],
      'no-restricted-syntax': [
        'error',
        {
          selector: "CallExpression[callee.object.name='Math'][callee.property.name='random']",
          message: `No randomness. ${why}`,
        },
        {
          selector: "CallExpression[callee.object.name='Date'][callee.property.name='now']",
          message: `No clock. ${why}`,
        },
        { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: `No clock. ${why}` },
      ],
    },
  })),
  {
    files: ['src/files/**/*.ts'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              group: ['chalk', 'inquirer', '@inquirer/*', 'commander', '**/cli/**'],
              message: 'Only src/cli talks to a terminal.',
            },
          ],
        },
      ],
      'no-restricted-globals': ['error', { name: 'console', message: 'Only src/cli prints.' }],
    },
  },
);
