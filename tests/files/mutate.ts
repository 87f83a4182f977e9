/** Random damage to a text, the kind hands, editors and bad disks do. Everything comes from the random numbers given. */
export type Random = () => number;

/** A small generator with a full period (mulberry32, public domain), so that a failure names the one seed that shows it. */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

const SPLINTERS = [
  '{', '}', '[', ']', ',', ':', ': ', '- ', '? ', '#', '&a ', '*a ', '!t ', '|', '>', '%', '@', '`', '"', "'", '\\',
  '\n', '\r', '\t', '  ', '---\n', '...\n', '\n%YAML 1.1\n', '\u0000', '\u001b[31m', '\u202e', '\u2028', '\ufeff', '\ud800',
  '<<: ', '__proto__: ', 'null', '~', 'true', '-1', '1e999', '0x1F', 'Ω', '½', '🔧', '9'.repeat(30), 'x'.repeat(200),
]; // prettier-ignore

/** One to four wounds. */
export function mutate(text: string, random: Random): string {
  const below = (limit: number) => Math.floor(random() * limit);
  let hurt = text;
  for (let wounds = 1 + below(4); wounds > 0; wounds--) hurt = wound(hurt, below);
  return hurt;
}

function wound(text: string, below: (limit: number) => number): string {
  const at = below(text.length + 1);
  const to = Math.min(text.length, at + 1 + below(below(4) === 0 ? 200 : 8));
  const lines = () => text.split('\n');
  switch (below(9)) {
    case 0:
      return text.slice(0, at) + text.slice(to);
    case 1:
      return text.slice(0, at) + SPLINTERS[below(SPLINTERS.length)]! + text.slice(at);
    case 2:
      return (
        text.slice(0, at) +
        String.fromCharCode(below(3) === 0 ? below(65536) : below(128)) +
        text.slice(at + 1)
      );
    case 3: {
      const from = below(text.length + 1);
      return text.slice(0, at) + text.slice(from, from + 1 + below(60)) + text.slice(at);
    }
    case 4: {
      const all = lines();
      all.splice(below(all.length), 1);
      return all.join('\n');
    }
    case 5: {
      const all = lines();
      all.splice(below(all.length), 0, all[below(all.length)]!);
      return all.join('\n');
    }
    case 6: {
      const all = lines();
      const line = below(all.length);
      all[line] =
        below(2) === 0 ? `${' '.repeat(1 + below(3))}${all[line]}` : all[line]!.replace(/^ {1,2}/, '');
      return all.join('\n');
    }
    case 7: {
      // One name or number becomes another of the file: the rules behind the schema get their share.
      const words = [...text.matchAll(/[\w.+-]+/g)];
      const [one, other] = [words[below(words.length)], words[below(words.length)]];
      if (!one || !other) return text;
      return text.slice(0, one.index) + other[0] + text.slice(one.index + one[0].length);
    }
    default:
      return text.slice(0, at);
  }
}
