import { BUDGET_DEFAULT } from "../science/constants/practice";
import { parseReading, type Reading } from "../science/reading";
import { native as words } from "../words/native";
import type { CellWriter } from "./cell-writer";
import { NotWritable } from "./not-writable";
import { figureText, isBlankValue, isNoisy, isNothing } from "./given";
import { kitNow, kitOf, type NativeKit, refuseOtherKit } from "./kit";

export type ReadingPart = "value" | "low" | "high" | "u";

/** Below it a reading without a kit has more decimals than the formula counts. */
const LEAST = 1e-9;
const DECIMALS = "{0,1,2,3,4,5,6,7,8,9}";

/**
 * One figure of a test reading as the text of a formula. A number is read by the formula, whatever it will be; a text such as "<0.2"
 * is read now, and the formula answers #N/A once the cell says something else.
 * `orNothing`: a cell that is blank or 0 is water without the substance, not a test that shows nothing.
 */
export function readingOf(writer: CellWriter, place: number, kitPlace: number, part: ReadingPart, orNothing = false): string {
  const given = writer.given(place);
  if (!given) return orNothing ? "0" : writer.needed(place);
  if (typeof given.value === "string" && !isBlankValue(given.value)) {
    writer.needed(place);
    writer.refuseUnless(given);
    return readNow(writer, given.value, kitPlace, part);
  }
  // It cannot be counted in decimals as our function does.
  if (part !== "value" && isNoisy(given.value) && !kitNow(writer.range(kitPlace))) {
    writer.needed(place);
    writer.refuseUnless(given);
    return readNow(writer, given.value, kitPlace, part);
  }
  const kit = kitOf(writer, kitPlace);
  const limits = kit.kind === "patches" ? { most: kit.last } : kit.kind === "none" && !orNothing ? (part === "value" ? { open: true } : { least: LEAST }) : {};
  const reading = writer.number(place, limits, orNothing ? "0" : undefined);
  if (given.literal && kit.kind === "patches") writer.refuseIf(`${reading}>${kit.last}`);
  if (!orNothing || given.literal) return orNothing && given.value === 0 ? "0" : figure(writer, given.text, kit, part);
  return kit.kind === "none" ? reading : `IF(OR(${isNothing(given.text)},${given.text}=0),0,${figure(writer, given.text, kit, part)})`;
}

function readNow(writer: CellWriter, text: string | number, kitPlace: number, part: ReadingPart): string {
  const reading = parseReading(text, kitNow(writer.range(kitPlace)));
  if (reading.censored === "above" && part !== "low") throw new NotWritable();
  if (!sameForAnyKit(text)) refuseOtherKit(writer, kitPlace);
  return figureText(reading[part]);
}

/** Whether the text alone tells all, as "<0.2" and "5-10" do. */
function sameForAnyKit(text: string | number): boolean {
  const [one, other] = [1, 3].map((step): Reading => parseReading(text, { step }));
  return one?.low === other?.low && one?.high === other?.high;
}

function figure(writer: CellWriter, reading: string, kit: NativeKit, part: ReadingPart): string {
  if (kit.kind === "none") return withoutKit(writer, reading, part);
  const low = kit.kind === "step" ? `MAX(0,${reading}-${kit.step}/2)` : `IF(${reading}<=${kit.first},0,(INDEX(${kit.patches},SUMPRODUCT(--(${kit.patches}<${reading})))+${reading})/2)`;
  const high = kit.kind === "step" ? `${reading}+${kit.step}/2` : `IF(${reading}<${kit.first},${kit.first},(${reading}+INDEX(${kit.next},SUMPRODUCT(--(${kit.patches}<=${reading}))))/2)`;
  if (part === "low") return low;
  if (part === "high") return kit.kind === "step" ? `(${high})` : high;
  const [from, to] = kit.kind === "step" ? [low, `(${high})`] : [writer.stepOf(words.kit.low, low), writer.stepOf(words.kit.high, high)];
  return part === "value" ? `(${from}+${to})/2` : `(${to}-${from})/SQRT(12)`;
}

/** To its last place or to plus or minus the usual share, whichever is wider: the middle is the reading itself. */
function withoutKit(writer: CellWriter, reading: string, part: ReadingPart): string {
  if (part === "value") return reading;
  const half = `MAX(0.5/10^SUMPRODUCT(--(ROUND(${reading},${DECIMALS})<>${reading})),${reading}*${writer.constant(BUDGET_DEFAULT.kitShare)})`;
  if (part === "u") return `2*${half}/SQRT(12)`;
  return part === "low" ? `(${reading}-${half})` : `(${reading}+${half})`;
}
