/** What every part has, whatever it does. */

/** A part of the drawing. Ids are the user's own (`F4`, `H1`, `X3`), compared without regard to case on input. */
export type PartId = string;

/**
 * What is known of a layout: faults of this part or wire are so many times as likely as they usually are. It ranks, and never
 * rules anything out.
 */
export interface WeakSpot {
  readonly times: number;
  readonly why: string;
}

export interface PartBase {
  readonly id: PartId;
  /** The part's plain name: "left stop lamp". */
  readonly label: string;
  /** Id of the place where the part sits. */
  readonly place: string;
  /** Price of a new item in the user's money; 0 = not stated. */
  readonly price: number;
  readonly neverProbe: boolean;
  readonly weakSpot?: WeakSpot | undefined;
}
