import type { Choice } from "./choices";

/** A cell's place in the window. */
export interface Anchor {
  readonly left: number;
  readonly top: number;
  readonly bottom: number;
  readonly width: number;
}

const HEIGHT = 280;
const LEAST_WIDTH = 120;
const GAP = 2;
const PAGE = 8;
/** Letters typed within this time of each other are one beginning. */
const TYPING_MS = 800;

/** The list that opens at a cell: arrows and letters move in it, Enter or a click chooses, Escape leaves the cell as it was. */
export class ChoiceList {
  private readonly box = document.createElement("div");
  private choices: readonly Choice[] = [];
  private active = 0;
  private typed = { text: "", at: 0 };
  private done: ((choice: Choice | null, back: boolean) => void) | undefined;

  /** @param home where it stands in the page: outside the grid, which takes every key for itself */
  constructor(private readonly home: HTMLElement) {
    this.box.className = "choice-list";
    this.box.setAttribute("role", "listbox");
    this.box.tabIndex = 0;
    this.box.addEventListener("keydown", (event) => this.press(event));
    this.box.addEventListener("blur", () => this.close(null, false));
    this.box.addEventListener("mousedown", (event) => event.preventDefault());
    this.box.addEventListener("click", ({ target }) => {
      const place = [...this.box.children].indexOf((target as Element).closest('[role="option"]') ?? this.box);
      if (place >= 0) this.close(this.choices[place] ?? null, true);
    });
  }

  get isOpen(): boolean {
    return this.done !== undefined;
  }

  /**
   * @param choices at least one
   * @param current the text that stands in the cell
   * @param done told once: what was chosen, and whether the keyboard goes back to the cell
   */
  show(anchor: Anchor, label: string, choices: readonly Choice[], current: string, done: (choice: Choice | null, back: boolean) => void): void {
    this.close(null, false);
    this.choices = choices;
    this.done = done;
    this.box.setAttribute("aria-label", label);
    this.box.replaceChildren(
      ...choices.map(({ text }, i) => {
        const option = document.createElement("div");
        option.id = `choice-${i}`;
        option.setAttribute("role", "option");
        option.textContent = text;
        return option;
      }),
    );
    this.home.append(this.box);
    this.position(anchor);
    this.move(Math.max(0, choices.findIndex(({ text }) => text === current)));
    this.box.focus({ preventScroll: true });
  }

  close(choice: Choice | null, back: boolean): void {
    const { done } = this;
    if (!done) return;
    this.done = undefined;
    this.box.remove();
    done(choice, back);
  }

  /** Under the cell, or over it where there is more room. */
  private position({ left, top, bottom, width }: Anchor): void {
    const [below, above] = [window.innerHeight - bottom, top];
    const height = Math.min(HEIGHT, Math.max(below, above) - 2 * GAP);
    const { style } = this.box;
    style.maxHeight = `${height}px`;
    style.minWidth = `${Math.max(LEAST_WIDTH, width)}px`;
    const { height: tall, width: wide } = this.box.getBoundingClientRect();
    style.top = `${below - 2 * GAP >= Math.min(tall, HEIGHT) || below >= above ? bottom + GAP : top - GAP - tall}px`;
    style.left = `${Math.max(GAP, Math.min(left, window.innerWidth - wide - GAP))}px`;
  }

  private move(to: number): void {
    this.active = Math.min(this.choices.length - 1, Math.max(0, to));
    [...this.box.children].forEach((option, i) => option.setAttribute("aria-selected", String(i === this.active)));
    this.box.setAttribute("aria-activedescendant", `choice-${this.active}`);
    this.box.children[this.active]?.scrollIntoView({ block: "nearest" });
  }

  private press(event: KeyboardEvent): void {
    const steps: Readonly<Record<string, number>> = { ArrowDown: this.active + 1, ArrowUp: this.active - 1, Home: 0, End: this.choices.length - 1, PageDown: this.active + PAGE, PageUp: this.active - PAGE };
    const to = steps[event.key];
    if (event.key === "Enter") this.close(this.choices[this.active] ?? null, true);
    else if (event.key === "Escape" || event.key === "Tab" || (event.altKey && event.key === "ArrowUp")) this.close(null, true);
    else if (to !== undefined) this.move(to);
    else if (event.key.length !== 1 || event.ctrlKey || event.metaKey || event.altKey) return;
    else this.seek(event.key, event.timeStamp);
    event.preventDefault();
    event.stopPropagation();
  }

  /** The next value that begins with what was typed; the same letter again goes on to the one after. */
  private seek(letter: string, now: number): void {
    const before = now - this.typed.at < TYPING_MS ? this.typed.text : "";
    const text = before === letter.toLowerCase() ? before : before + letter.toLowerCase();
    this.typed = { text, at: now };
    const start = text.length > 1 ? this.active : this.active + 1;
    const order = this.choices.map((_choice, i) => (start + i) % this.choices.length);
    const found = order.find((i) => this.choices[i]?.text.toLowerCase().startsWith(text));
    if (found !== undefined) this.move(found);
  }
}
