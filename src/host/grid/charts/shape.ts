/** A piece of a picture before it stands on the page, so that a picture can be made, and looked into, without a page. */
export interface Shape {
  readonly tag: string;
  readonly at: Readonly<Record<string, string | number>>;
  readonly inside: readonly (Shape | string)[];
}

export function shape(tag: string, at: Shape["at"] = {}, ...inside: readonly (Shape | string)[]): Shape {
  return { tag, at, inside };
}

const SVG = "http://www.w3.org/2000/svg";

export function svgElement({ tag, at, inside }: Shape): SVGElement {
  const element = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(at)) element.setAttribute(name, String(value));
  element.append(...inside.map((one) => (typeof one === "string" ? one : svgElement(one))));
  return element;
}

/** A place in a picture, without the digits that no screen shows. */
export const px = (value: number): number => Math.round(value * 100) / 100;
