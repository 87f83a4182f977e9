/** Fault-finding trees: one sheet, three forms. */
import type { TreeSheet } from './tree-sheet.js';
import { treeDot } from './tree-dot.js';
import { treeMarkdown } from './tree-markdown.js';
import { treeText } from './tree-text.js';

export const TREE_FORMS = ['text', 'markdown', 'dot'] as const;
export type TreeForm = (typeof TREE_FORMS)[number];

export function printTree(
  sheet: TreeSheet,
  form: TreeForm,
  options: { readonly ascii?: boolean } = {},
): string {
  switch (form) {
    case 'text':
      return treeText(sheet, options);
    case 'markdown':
      return treeMarkdown(sheet, options);
    case 'dot':
      return treeDot(sheet, options);
  }
}
