import type { Injector } from "@univerjs/core";
import { IEditorBridgeService, ILayoutService } from "@univerjs/preset-sheets-core";
import { SheetsSelectionsService } from "@univerjs/sheets";
import { host } from "../../words/host";
import { type CellRange, cellAddress } from "../engine/address";
import type { GridPort } from "../grid-port";
import { type Choice, choicesOf, noteOf, ruleAt } from "./choices";
import { ChoiceList } from "./choice-list";
import type { Box, SheetView } from "./sheet-view";

/** The chosen cell and what its rule has to offer. */
interface Chosen {
  readonly sheet: string;
  readonly address: string;
  /** In the view. */
  readonly box: Box;
  readonly choices: readonly Choice[];
}

const BUTTON = 22;
const NOTE_GAP = 6;

/** What the rules of cells offer: a list at the chosen cell, by its button or by Alt+Down, and the note that says what the cell is for. */
export class CellChoices {
  private readonly layer = document.createElement("div");
  private readonly button = document.createElement("button");
  private readonly note = document.createElement("div");
  private readonly list: ChoiceList;
  private chosen: Chosen | null = null;
  /** The cell whose note was sent away with Escape. */
  private dismissed = "";

  /** @param container the grid's element */
  constructor(private readonly container: HTMLElement, private readonly injector: Injector, private readonly port: GridPort, private readonly view: SheetView) {
    this.layer.className = "cell-layer";
    this.button.type = "button";
    this.button.className = "cell-button";
    // Tab belongs to the cells: from the keyboard the list opens with Alt+Down.
    this.button.tabIndex = -1;
    this.button.setAttribute("aria-haspopup", "listbox");
    this.button.setAttribute("aria-label", host.choices.open);
    this.button.title = host.choices.open;
    this.button.addEventListener("mousedown", (event) => event.preventDefault());
    this.button.addEventListener("click", () => this.openList());
    this.note.className = "cell-note";
    this.note.setAttribute("role", "status");
    this.layer.append(this.button, this.note);
    this.list = new ChoiceList(container.parentElement ?? document.body);
    // Before the grid, which has a use of its own for most keys.
    window.addEventListener("keydown", (event) => this.press(event), { capture: true });
    view.onChange(() => this.update());
  }

  private press(event: KeyboardEvent): void {
    if (!this.container.contains(document.activeElement) || this.isEditing()) return;
    if (event.key === "Escape" && this.chosen) {
      this.dismissed = `${this.chosen.sheet}!${this.chosen.address}`;
      this.view.tell();
    }
    if (event.key !== "ArrowDown" || !event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    if (!this.chosen || this.chosen.choices.length === 0) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    this.openList();
  }

  private update(): void {
    const sight = this.view.sight();
    // It stands before the first note does: a screen reader says what comes into a place that it knows.
    if (sight && this.layer.parentElement !== sight.canvas.parentElement) sight.canvas.parentElement?.append(this.layer);
    const cell = this.chosenCell();
    const rule = sight && cell ? ruleAt(this.port.state.current(), sight.sheet.getSheetId(), cell.startRow, cell.startColumn) : undefined;
    const pane = cell && sight?.panes.find(({ holds }) => holds(cell));
    if (!sight || !cell || !rule || !pane) return this.hide();
    const within = pane.place(cell);
    const box = { ...within, left: within.left + pane.box.left, top: within.top + pane.box.top };
    const sheet = sight.sheet.getName();
    const address = cellAddress(cell.startRow, cell.startColumn);
    const choices = choicesOf(this.port, rule, sheet, cell.startRow, cell.startColumn);
    const before = this.chosen;
    this.chosen = { sheet, address, box, choices };
    if (before?.sheet !== sheet || before.address !== address) this.dismissed = "";
    // A list stands at its cell or not at all.
    if (before && (before.sheet !== sheet || before.address !== address || before.box.left !== box.left || before.box.top !== box.top)) this.list.close(null, true);
    const inView = within.top > -2 && within.left + within.width > 0 && within.top + within.height <= pane.box.height + 2 && within.left < pane.box.width;
    this.showButton(inView && choices.length > 0 && !this.isEditing(), box, pane.box);
    const note = noteOf(rule);
    const shown = inView && note !== null && !this.list.isOpen && this.dismissed !== `${sheet}!${address}`;
    this.showNote(shown ? [note.title, note.message] : [], box, sight.canvas);
  }

  private hide(): void {
    this.chosen = null;
    this.dismissed = "";
    this.button.hidden = true;
    this.showNote([]);
    this.list.close(null, true);
  }

  /** Right of the cell, or in it where the view ends there. */
  private showButton(shown: boolean, { left, top, width, height }: Box, pane: Box): void {
    this.button.hidden = !shown;
    const right = left + width;
    const tall = Math.min(height, BUTTON + 2);
    Object.assign(this.button.style, {
      left: `${right + BUTTON <= pane.left + pane.width ? right : Math.min(right, pane.left + pane.width) - BUTTON}px`,
      top: `${top + height - tall}px`,
      width: `${BUTTON}px`,
      height: `${tall}px`,
    });
  }

  /** Under the cell, or over it at the end of the view. The words are only put in when they change: a screen reader says them once. */
  private showNote(lines: readonly string[], { left, top, height } = { left: 0, top: 0, height: 0 }, { clientWidth, clientHeight } = { clientWidth: 0, clientHeight: 0 }): void {
    const [title = "", message = ""] = lines;
    if (this.note.dataset.says !== lines.join("\n")) {
      this.note.dataset.says = lines.join("\n");
      const [strong, text] = [document.createElement("strong"), document.createElement("span")];
      [strong.textContent, text.textContent] = [title, message];
      this.note.replaceChildren(...[strong, text].filter(({ textContent }) => textContent !== ""));
    }
    const { offsetWidth, offsetHeight } = this.note;
    const below = top + height + NOTE_GAP;
    Object.assign(this.note.style, { left: `${Math.max(0, Math.min(left + NOTE_GAP, clientWidth - offsetWidth))}px`, top: `${below + offsetHeight <= clientHeight ? below : top - NOTE_GAP - offsetHeight}px` });
  }

  private openList(): void {
    const { chosen } = this;
    const canvas = this.view.sight()?.canvas.getBoundingClientRect();
    if (!chosen || !canvas) return;
    const { sheet, address, box, choices } = chosen;
    const anchor = { left: canvas.left + box.left, top: canvas.top + box.top, bottom: canvas.top + box.top + box.height, width: box.width };
    const current = this.port.formats.text(sheet, address)[0]?.[0] ?? "";
    this.list.show(anchor, host.choices.list(address), choices, current, (choice, back) => {
      if (choice) this.port.write(sheet, address, [[choice.value]]);
      if (back) this.injector.get(ILayoutService).focus();
      this.view.tell();
    });
    this.view.tell();
  }

  private isEditing(): boolean {
    return this.injector.get(IEditorBridgeService).isVisible().visible;
  }

  /** With its merged neighbours. */
  private chosenCell(): CellRange | null {
    const primary = this.injector.get(SheetsSelectionsService).getCurrentLastSelection()?.primary;
    if (!primary) return null;
    const { startRow, endRow, startColumn, endColumn } = primary;
    return { startRow, endRow, startColumn, endColumn };
  }
}
