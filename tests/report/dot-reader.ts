/**
 * Reads as much of the DOT language as a tree needs, and refuses everything else. Written from the grammar that Graphviz publishes
 * ("DOT Language", graphviz.org/doc/info/lang.html, from memory): graph : 'digraph' ID '{' stmt_list '}';
 * stmt : node_stmt | edge_stmt | attr_stmt; attr_list : '[' ID '=' ID (',' ID '=' ID)* ']'; ID : a word, a numeral, or a quoted string
 * in which only \" is an escape of the language. In labels \l ends a line set to the left, and \\ is a backslash.
 */
export interface DotGraph {
  /** Node to its label. */
  readonly nodes: ReadonlyMap<string, string>;
  readonly edges: readonly (readonly [from: string, to: string])[];
}

const TOKEN = /\s*(->|[{}[\];=,]|"(?:[^"\\]|\\[^])*"|[A-Za-z_][A-Za-z_0-9]*|-?(?:\.\d+|\d+(?:\.\d*)?))/y;

export function readDot(text: string): DotGraph {
  const tokens = tokensOf(text);
  let at = 0;
  const take = (wanted?: string): string => {
    const token = tokens[at++];
    if (token === undefined || (wanted !== undefined && token !== wanted))
      throw new Error(`token ${at}: ${token ?? 'end'} instead of ${wanted ?? 'more'}`);
    return token;
  };
  const id = (): string => {
    const token = take();
    if (/^(?:->|[{}[\];=,])$/.test(token)) throw new Error(`token ${at}: ${token} is no name`);
    return token;
  };
  const attributes = (): Map<string, string> => {
    const list = new Map<string, string>();
    while (tokens[at] === '[') {
      take('[');
      while (tokens[at] !== ']') {
        const name = id();
        take('=');
        list.set(name, id());
        if (tokens[at] === ',' || tokens[at] === ';') take();
      }
      take(']');
    }
    return list;
  };

  const nodes = new Map<string, string>();
  const edges: [string, string][] = [];
  take('digraph');
  if (tokens[at] !== '{') id();
  take('{');
  while (tokens[at] !== '}') {
    const name = id();
    if (['graph', 'node', 'edge'].includes(name)) attributes();
    else if (tokens[at] === '->') {
      take('->');
      edges.push([name, id()]);
      attributes();
    } else nodes.set(name, labelOf(attributes().get('label') ?? name));
    if (tokens[at] === ';') take();
  }
  take('}');
  if (at !== tokens.length) throw new Error('something follows the graph');
  return { nodes, edges };
}

function tokensOf(text: string): string[] {
  const tokens: string[] = [];
  const end = text.trimEnd().length;
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < end) {
    const from = TOKEN.lastIndex;
    const match = TOKEN.exec(text);
    if (match === null) throw new Error(`no token at ${from}: ${text.slice(from, from + 30)}`);
    tokens.push(match[1]!);
  }
  return tokens;
}

function labelOf(token: string): string {
  const inner = token.startsWith('"') ? token.slice(1, -1) : token;
  return inner
    .replace(/\\([^])/g, (_whole, sign: string) =>
      sign === 'l' || sign === 'n' || sign === 'r' ? '\n' : sign,
    )
    .replaceAll('&amp;', '&');
}
