/** Changes to a circuit as a person types them, one a line: `set H1 watts 5 W`, `connector X9 in W4`, `lamp H9 5 W from SP3 to GP3`. */
import type { Circuit } from '../../circuit/circuit.js';

export type Change =
  | { readonly do: 'set'; readonly target: string; readonly key: string; readonly value: string }
  | {
      readonly do: 'connector';
      readonly id: string;
      readonly wires: readonly string[];
      readonly place: string | undefined;
    }
  | {
      readonly do: 'lamp';
      readonly id: string;
      readonly figure: string;
      readonly feed: string;
      readonly ground: string;
      readonly name: string | undefined;
      readonly place: string | undefined;
    }
  | { readonly do: 'rename'; readonly from: string; readonly to: string };

export type ReadChange = { readonly change: Change } | { readonly wrong: string; readonly mend: string };

/** Usage and meaning, for help. */
export const CHANGE_HELP: readonly (readonly [usage: string, meaning: string])[] = [
  ['set H1 watts 5 W', 'another value of a part (or of a wire: set W4 size 2.5 mm2; or set title ...)'],
  ['connector X9 in W4', 'an in-line connector into one or more wires (at PLACE may follow)'],
  [
    'lamp H9 5 W from SP3 to GP3',
    'one more lamp on a feed and a ground that are there (named ..., at PLACE)',
  ],
  ['rename H1 to H7', 'another id; every wire follows'],
];

const WHOLE = new Set(['title', 'nominal', 'about']);

export function readChange(line: string, circuit: Circuit): ReadChange {
  const words = line.trim().split(/\s+/);
  const verb = words[0]?.toLowerCase() ?? '';
  const rest = words.slice(1);
  switch (verb) {
    case 'set':
      return readSet(line.trim().slice(3).trim(), circuit);
    case 'connector':
    case 'add-connector':
      return readConnector(rest, circuit);
    case 'lamp':
    case 'add-lamp':
      return readLamp(rest);
    case 'rename': {
      const [from, to, more] = rest
        .flatMap((word) => word.split('='))
        .filter((word) => word.toLowerCase() !== 'to');
      if (from === undefined || to === undefined || more !== undefined) return usage('rename', 3);
      return { change: { do: 'rename', from, to } };
    }
    default:
      return {
        wrong: `a change cannot start with "${words[0] ?? ''}"`,
        mend: `write one of: ${CHANGE_HELP.map(([example]) => example).join('; ')}`,
      };
  }
}

function readSet(text: string, circuit: Circuit): ReadChange {
  const [, whole, value] = /^([a-z]+)\s*[=:\s]\s*(.+)$/is.exec(text) ?? [];
  if (whole !== undefined && WHOLE.has(whole.toLowerCase()))
    return { change: { do: 'set', target: '', key: whole.toLowerCase(), value: value!.trim() } };
  const [, target, more] = /^([A-Za-z][A-Za-z0-9_-]*)[.\s]+(.+)$/s.exec(text) ?? [];
  if (target === undefined || more === undefined) return usage('set', 0);
  const id = known(circuit, target);
  if (id === undefined) return unknownId(circuit, target);
  const [, key, given] = /^(weak spot|[a-z-]+)\s*[=:\s]\s*(.+)$/is.exec(more) ?? [];
  if (key === undefined || given === undefined) return usage('set', 0);
  return { change: { do: 'set', target: id, key: key.toLowerCase(), value: given.trim() } };
}

function readConnector(words: readonly string[], circuit: Circuit): ReadChange {
  const { before, place } = placed(words);
  const names = before
    .flatMap((word) => word.split(','))
    .filter((word) => word !== '' && !/^(in|into|and)$/i.test(word));
  const wires = names.flatMap(
    (name) => circuit.wires.find(({ id }) => id.toLowerCase() === name.toLowerCase()) ?? [],
  );
  const others = names.filter((name) => !wires.some(({ id }) => id.toLowerCase() === name.toLowerCase()));
  const [id, second] = others;
  if (wires.length === 0)
    return {
      wrong:
        others.length > 0
          ? `there is no wire called "${others.find((one) => /^w/i.test(one)) ?? others.at(-1)}"`
          : 'no wire is named',
      mend: `name one like: connector X9 in ${circuit.wires[0]?.id ?? 'W1'}; to see them: draw`,
    };
  if (id === undefined)
    return { wrong: 'the new connector has no id', mend: `write it like: connector X9 in ${wires[0]!.id}` };
  if (second !== undefined)
    return {
      wrong: `"${second}" is neither a wire nor the id of the connector`,
      mend: 'name one new id and the wires',
    };
  return { change: { do: 'connector', id, wires: [...new Set(wires.map((wire) => wire.id))], place } };
}

function readLamp(words: readonly string[]): ReadChange {
  const named = words.findIndex((word) => /^named$/i.test(word));
  const tail = named < 0 ? { before: [], place: undefined } : placed(words.slice(named + 1));
  const { before, place } = placed(named < 0 ? words : words.slice(0, named));
  const plain = before.filter((word) => !/^(from|to|on)$/i.test(word));
  if (plain.length < 4) return usage('lamp', 2);
  const name = tail.before.join(' ');
  return {
    change: {
      do: 'lamp',
      id: plain[0]!,
      figure: plain.slice(1, -2).join(' '),
      feed: plain.at(-2)!,
      ground: plain.at(-1)!,
      name: name === '' ? undefined : name,
      place: place ?? tail.place,
    },
  };
}

/** `at PLACE` ends a line. */
function placed(words: readonly string[]): { before: readonly string[]; place: string | undefined } {
  const at = words.findIndex((word) => /^at$/i.test(word));
  return at < 0
    ? { before: words, place: undefined }
    : { before: words.slice(0, at), place: words.slice(at + 1).join(' ') };
}

/** The id as the circuit spells it. */
export function known(circuit: Circuit, typed: string): string | undefined {
  const ids = [...circuit.parts.keys(), ...circuit.wires.map(({ id }) => id)];
  return ids.find((id) => id.toLowerCase() === typed.toLowerCase());
}

export function unknownId(
  circuit: Circuit,
  typed: string,
): { readonly wrong: string; readonly mend: string } {
  const ids = [...circuit.parts.keys()];
  return {
    wrong: `there is no part or wire called "${typed}"`,
    mend: `parts: ${ids.slice(0, 20).join(', ')}${ids.length > 20 ? ' ...' : ''}`,
  };
}

function usage(verb: string, index: number): ReadChange {
  return { wrong: `something is missing after "${verb}"`, mend: `write it like: ${CHANGE_HELP[index]![0]}` };
}
