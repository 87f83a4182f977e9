/** Pieces of the schema that several of its places share: names, ids, amounts with a unit. */

export const yesNo = {
  type: ['boolean', 'string'],
  enum: [true, false, 'true', 'false'],
  description: 'true or false',
};
export const named = {
  type: 'string',
  pattern: '^[\\p{L}\\p{N}][\\p{L}\\p{N} ._/()+-]{0,39}$',
  description: 'a short name: letters, digits, spaces and . _ / ( ) + -, at most 40 of them',
};
/** Names that look like a number may also be typed as one. */
export const numberedName = { ...named, type: ['string', 'integer'] };
export const id = {
  type: 'string',
  pattern: '^[A-Za-z][A-Za-z0-9_-]{0,15}$',
  description: 'a short id such as F4 or X3: a letter, then letters, digits, - or _ (16 at most)',
};
export const terminal = {
  type: ['string', 'integer'],
  // Not ending in i: F4.2i means the item side of F4.2.
  pattern: '^[A-Za-z0-9]{0,7}[A-HJ-Za-hj-z0-9+-]$',
  description: 'a terminal or pin such as 30, 87a or L: letters and digits, 8 at most, not ending in i',
};
export const point = {
  type: 'string',
  pattern: '^[A-Za-z0-9_.+-]{1,26}$',
  description: 'a point such as F4.2, X3.1h (harness side) or GP1',
};
export const amount = (example: string) => ({
  type: 'string',
  minLength: 1,
  maxLength: 30,
  description: `a number with its unit, like ${example}`,
  examples: [example],
});
/** What is known of a layout; see WeakSpot in part-base.ts. */
export const weakSpot = {
  type: 'object',
  required: ['times', 'why'],
  additionalProperties: false,
  properties: {
    times: {
      type: ['number', 'string'],
      description: 'how many times as likely its faults are as usual, like 3 (0.1 to 20)',
    },
    why: {
      type: 'string',
      minLength: 1,
      maxLength: 160,
      pattern: '^[^\\p{Cc}]*$',
      description: 'the reason in plain words, like water runs down the loom into it',
    },
  },
  description: 'a known weak spot, like {times: 3, why: water runs down the loom into it}',
};
/** An escape in quotes could otherwise carry a terminal sequence into a screen or a report. */
export const text = (most: number) => ({
  type: ['string', 'number'],
  minLength: 1,
  maxLength: most,
  pattern: '^[^\\p{Cc}]*$',
  description: `text of at most ${most} characters without control characters`,
});
