import { Problem } from "../science/problem";
import { files } from "../words/files";

const LESS_THAN = 0x3c;
const EQUALS = 0x3d;
/** Of one element. A text of 32,767 letters, the most that a cell holds, stays below even when it is nothing but "=". */
const MOST_ATTRIBUTES = 40_000;

/**
 * How many tags and attributes a part has, told by its "<" and "=" without reading it: what reading costs goes by them.
 * Throws a Problem for an element with attributes without end, whose cost grows faster than their number.
 */
export function countMarks(content: Uint8Array, part: string): number {
  let marks = 0;
  let lastTag = 0;
  for (let i = 0; i < content.length; i += 1) {
    const byte = content[i];
    if (byte === EQUALS) {
      marks += 1;
      if (marks - lastTag > MOST_ATTRIBUTES) throw new Problem("value", files.tooManyAttributes(part));
    } else if (byte === LESS_THAN) {
      marks += 1;
      lastTag = marks;
    }
  }
  return marks;
}
