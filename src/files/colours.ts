import { attribute, walkXml, type XmlTag } from "./xml";

/** Turns a colour element of a file into "#rrggbb"; undefined for the automatic colour. */
export type ColourReader = (tag: XmlTag) => string | undefined;

/** The colours of a theme part in the order that cells count them: two light and dark pairs, six accents, two for links. */
export function readThemeColours(xml: string, part: string): string[] {
  const stored: string[] = [];
  let inScheme = false;
  let slot = "";
  walkXml(xml, part, {
    open(tag) {
      if (tag.local === "clrScheme") inScheme = true;
      else if (inScheme && slot === "") slot = tag.local;
      else if (inScheme && (tag.local === "srgbClr" || tag.local === "sysClr")) {
        const value = tag.local === "sysClr" ? attribute(tag, "lastClr") : attribute(tag, "val");
        stored.push(`#${(value ?? "000000").toLowerCase()}`);
      }
    },
    close(tag) {
      if (tag.local === slot) slot = "";
      if (tag.local === "clrScheme") inScheme = false;
    },
  });
  const [dark1, light1, dark2, light2, ...rest] = stored;
  // The part lists dark before light in each pair, cells count light before dark.
  return [light1, dark1, light2, dark2, ...rest].map((colour) => colour ?? "#000000");
}

export function colourReader(theme: readonly string[], palette: readonly string[] = INDEXED): ColourReader {
  return (tag) => {
    const base = baseColour(tag, theme, palette);
    const tint = Number(attribute(tag, "tint") ?? 0);
    return base === undefined || tint === 0 || !Number.isFinite(tint) ? base : tinted(base, tint);
  };
}

function baseColour(tag: XmlTag, theme: readonly string[], palette: readonly string[]): string | undefined {
  const rgb = attribute(tag, "rgb");
  if (rgb !== undefined && /^[0-9A-Fa-f]{6,8}$/.test(rgb)) return `#${rgb.slice(-6).toLowerCase()}`;
  const index = attribute(tag, "theme");
  if (index !== undefined) return theme[Number(index)];
  return palette[Number(attribute(tag, "indexed") ?? -1)];
}

/** Lighter (0 to 1) or darker (-1 to 0), in hue, lightness and saturation as ECMA-376 18.8.19 says. */
function tinted(colour: string, tint: number): string {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255);
  const max = Math.max(r, g, b);
  const min = Math.min(r, g, b);
  const lightness = (max + min) / 2;
  const spread = max - min;
  const saturation = spread === 0 ? 0 : spread / (1 - Math.abs(2 * lightness - 1));
  let hue = 0;
  if (spread > 0) hue = max === r ? ((g - b) / spread + 6) % 6 : max === g ? (b - r) / spread + 2 : (r - g) / spread + 4;
  const moved = tint < 0 ? lightness * (1 + tint) : lightness * (1 - tint) + tint;
  const chroma = (1 - Math.abs(2 * moved - 1)) * saturation;
  const second = chroma * (1 - Math.abs((hue % 2) - 1));
  const sector = [[chroma, second, 0], [second, chroma, 0], [0, chroma, second], [0, second, chroma], [second, 0, chroma], [chroma, 0, second]][Math.floor(hue) % 6] ?? [0, 0, 0];
  const base = moved - chroma / 2;
  return `#${sector.map((part) => Math.round(Math.min(1, Math.max(0, part + base)) * 255).toString(16).padStart(2, "0")).join("")}`;
}

const FIRST_EIGHT = "000000 ffffff ff0000 00ff00 0000ff ffff00 ff00ff 00ffff";
/** The palette of the older file format, ECMA-376 18.8.27: the first eight stand twice. */
export const INDEXED: readonly string[] = `${FIRST_EIGHT} ${FIRST_EIGHT}
  800000 008000 000080 808000 800080 008080 c0c0c0 808080 9999ff 993366 ffffcc ccffff 660066 ff8080 0066cc ccccff
  000080 ff00ff ffff00 00ffff 800080 800000 008080 0000ff 00ccff ccffff ccffcc ffff99 99ccff ff99cc cc99ff ffcc99
  3366ff 33cccc 99cc00 ffcc00 ff9900 ff6600 666699 969696 003366 339966 003300 333300 993300 993366 333399 333333`
  .trim().split(/\s+/).map((code) => `#${code}`);
