import { applyEdits, attribute, type Edit, escapeXml, tagStart, walkXml, withAttribute, type XmlTag } from "../xml";

/** A rule of a sheet that stands in the copy no more. */
export interface DroppedRule {
  readonly kind: "format" | "validation";
  /** Its cells, "B2:B90". */
  readonly range: string;
  /** The formula that it had. */
  readonly text: string;
}

/** An element that is open: how many of what it holds are rules, or hold rules, and how many of these are gone. */
interface Open {
  readonly tag: XmlTag;
  readonly start: number;
  readonly tagEnd: number;
  text: string;
  sqref: string;
  held: number;
  gone: number;
  readonly formulas: string[];
  readonly dropped: { readonly kind: DroppedRule["kind"]; range: string; readonly text: string }[];
}

const RULES: Readonly<Record<string, DroppedRule["kind"]>> = { cfRule: "format", dataValidation: "validation" };
const FORMULAS = new Set(["formula", "formula1", "formula2", "f"]);
/** What holds rules, by what of it counts; without one of them it may not stand. */
const HOLDERS: Readonly<Record<string, RegExp>> = { conditionalFormatting: /^cfRule$/, dataValidations: /^dataValidation$/, conditionalFormattings: /^conditionalFormatting$/, ext: /./, extLst: /^ext$/ };

/**
 * A worksheet part without the conditional formats and validations whose formula cannot stand in a copy, and with the formulas of the
 * others rewritten. What held nothing but such rules goes with them.
 */
export function dropRules(xml: string, part: string, isGone: (formula: string) => boolean, rewrite: (formula: string) => string): { readonly xml: string; readonly dropped: readonly DroppedRule[] } {
  const open: Open[] = [];
  const edits: Edit[] = [];
  const all: DroppedRule[] = [];
  const remove = ({ start }: Open, end: number): void => {
    // What was changed inside it goes with it.
    while (edits.length > 0 && (edits[edits.length - 1]?.start ?? 0) >= start) edits.pop();
    edits.push({ start, end, text: "" });
  };
  walkXml(xml, part, {
    open(tag, end) {
      open.push({ tag, start: tagStart(xml, end), tagEnd: end, text: "", sqref: attribute(tag, "sqref") ?? "", held: 0, gone: 0, formulas: [], dropped: [] });
    },
    text(text) {
      const last = open[open.length - 1];
      if (last) last.text += text;
    },
    close(tag, end) {
      const closed = open.pop();
      const parent = open[open.length - 1];
      if (!closed || !parent) return;
      const rule = [...open].reverse().find((one) => RULES[one.tag.local] !== undefined);
      if (tag.local === "sqref") parent.sqref = closed.text;
      if (rule && FORMULAS.has(tag.local)) {
        if (isGone(closed.text)) rule.formulas.push(closed.text);
        else {
          const text = rewrite(closed.text);
          if (text !== closed.text) edits.push({ start: closed.tagEnd, end: tagStart(xml, end), text: escapeXml(text) });
        }
      }
      const kind = RULES[tag.local];
      const isHolder = HOLDERS[tag.local] !== undefined;
      const gone = kind ? closed.formulas.length > 0 : isHolder && closed.held > 0 && closed.gone === closed.held;
      if (kind && gone) closed.dropped.push({ kind, range: closed.sqref, text: closed.formulas[0] ?? "" });
      for (const one of closed.dropped) if (one.range === "") one.range = closed.sqref;
      if (gone) remove(closed, end);
      else if (tag.local === "dataValidations" && closed.gone > 0) edits.push({ start: closed.start, end: closed.tagEnd, text: withAttribute(xml.slice(closed.start, closed.tagEnd), "count", String(closed.held - closed.gone)) });
      if (HOLDERS[parent.tag.local]?.test(tag.local)) {
        parent.held += 1;
        if (gone) parent.gone += 1;
      }
      if (open.length > 1) parent.dropped.push(...closed.dropped);
      else all.push(...closed.dropped);
    },
  });
  return { xml: edits.length > 0 ? applyEdits(xml, [...edits].sort((a, b) => a.start - b.start)) : xml, dropped: all };
}
