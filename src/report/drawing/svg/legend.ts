/** The line of symbols and signs at the foot of a sheet. */
import type { Link } from '../../../circuit/links.js';
import { GROUND, symbolOf } from './symbols.js';

const STEP = 78;
const ROW = 34;

/** @param signs of the standings on the sheet, each with its meaning */
export function legendOf(
  signs: readonly (readonly [sign: string, meaning: string])[],
  width: number,
): { readonly svg: string; readonly width: number; readonly height: number } {
  const link = (kind: Link['kind']): Link => ({
    index: 0,
    kind,
    owner: '',
    ends: ['', ''],
    keys: [],
    control: '',
    closed: [],
  });
  const fuse = { type: 'fuse' } as never;
  const items: readonly (readonly [symbol: string, words: string])[] = [
    [scaled(symbolOf(fuse, link('fuse'), undefined, false)), 'fuse'],
    [scaled(symbolOf(undefined, link('contact'), false, false)), 'contact open'],
    [scaled(symbolOf(undefined, link('contact'), true, false)), 'contact closed'],
    [scaled(symbolOf(undefined, link('coil'), undefined, false)), 'coil'],
    [scaled(symbolOf(undefined, link('pin'), undefined, false)), 'connector pin'],
    [scaled(symbolOf({ type: 'lamp' } as never, link('load'), undefined, false)), 'lamp'],
    [scaled(GROUND), 'ground'],
    ['<circle class="dot" cx="0" cy="11" r="3"/>', 'splice'],
    ...signs.map(([sign, meaning]) => [`<text class="sign" x="0" y="15">${sign}</text>`, meaning] as const),
  ];
  let x = 12;
  let row = 0;
  const drawn = items.map(([symbol, words]) => {
    const wide = Math.max(STEP, words.length * 5.2 + 30);
    if (x + wide > width && x > 12) [x, row] = [12, row + 1];
    const svg = `<g transform="translate(${Math.round(x)} ${row * ROW})">${symbol}<text class="small" x="14" y="14">${words}</text></g>`;
    x += wide;
    return svg;
  });
  return {
    svg: `<path d="M0 -6L${Math.round(width)} -6"/>${drawn.join('')}`,
    width,
    height: (row + 1) * ROW,
  };
}

function scaled(symbol: string): string {
  return `<g transform="scale(0.5)">${symbol}</g>`;
}
