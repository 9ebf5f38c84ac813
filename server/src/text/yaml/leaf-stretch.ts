import type { Block } from '../tree';

/** A stretch of text that holds one value, to be parsed alone. */
export interface Leaf {
  /** Offsets of the value's text. */
  readonly from: number;
  readonly to: number;
  /**
   * What stands before the value: a key or a dash at this indent, on the same line or the line above. The value is
   * parsed behind a stand-in for it, so that indentation and block scalars mean what they mean in the whole file.
   */
  readonly under: 'key' | 'dash' | 'key above' | 'dash above' | 'nothing';
  readonly indent: number;
  readonly block: Block;
}
