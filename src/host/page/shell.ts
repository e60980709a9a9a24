import { host } from "../../words/host";
import { moveBetween } from "./areas";
import type { Sample } from "./samples";
import "./page.css";

/** By which a user changes a cell; first at the window, before the grid hears of them. */
const KINDS_OF_INPUT = ["keydown", "keypress", "beforeinput", "input", "compositionstart", "compositionend", "paste", "cut", "pointerdown", "mousedown", "click", "dblclick", "contextmenu"];

/** The page around the grid: its name, the picker, and a line that says what happened. */
export class Shell {
  readonly grid = element("grid");
  readonly pane = element("pane");
  private readonly picker = element("sample") as HTMLSelectElement;
  private readonly status = element("status");
  private readonly kept = element("kept");
  private readonly doing = element("doing");
  private readonly file = element("file") as HTMLInputElement;
  private isClosed = false;
  /** What the picker shows while no sample stands there unchanged. */
  private readonly none = new Option(host.noSample, "");

  constructor() {
    document.title = host.title;
    element("name").textContent = host.title;
    element("sample-label").textContent = host.samplePicker;
    element("privacy").textContent = host.privacy;
    this.grid.setAttribute("aria-label", host.gridLabel);
    this.pane.setAttribute("aria-label", host.paneLabel);
    element("keys").textContent = host.nextArea;
    element("open").textContent = host.open;
    element("download").textContent = host.download;
    element("afresh").textContent = host.afresh;
    element("drop").textContent = host.dropHere;
    const dismiss = element("dismiss");
    dismiss.textContent = host.close;
    dismiss.addEventListener("click", () => {
      this.note("");
      this.picker.focus();
    });
    moveBetween([element("bar"), this.grid, this.pane]);
    for (const kind of KINDS_OF_INPUT) window.addEventListener(kind, (event) => this.hold(event), { capture: true, passive: false });
  }

  /** Lets nobody change anything in the grid and the pane, or lets everybody in again. */
  close(isClosed: boolean): void {
    this.isClosed = isClosed;
    // Not the grid: it takes the focus for a workbook that comes, and takes no text later when it could not.
    this.pane.inert = isClosed;
    this.grid.setAttribute("aria-busy", String(isClosed));
  }

  private hold(event: Event): void {
    if (!this.isClosed) return;
    const isInBar = event.target instanceof Node && element("bar").contains(event.target);
    // The grid takes keys for its own, wherever they are pressed.
    if (event instanceof KeyboardEvent || !isInBar) event.stopImmediatePropagation();
    // A key that the grid does not hear of may still move the focus, or load the page anew.
    if (!isInBar && event.type !== "keydown") event.preventDefault();
  }

  offer(samples: readonly Sample[], choose: (sample: Sample) => void): void {
    this.none.hidden = true;
    this.picker.replaceChildren(...samples.map(({ title }, i) => new Option(title, String(i))), this.none);
    this.picker.value = "";
    this.picker.disabled = samples.length === 0;
    this.picker.addEventListener("change", () => {
      const sample = samples[Number(this.picker.value)];
      if (sample) choose(sample);
    });
  }

  offerFiles({ afresh, download, open }: { open(file: File): void; download(): void; afresh(): void }): void {
    element("open").addEventListener("click", () => this.file.click());
    this.file.addEventListener("change", () => {
      const file = this.file.files?.[0];
      // The same file may be chosen again.
      this.file.value = "";
      if (file) open(file);
    });
    element("download").addEventListener("click", download);
    element("afresh").addEventListener("click", afresh);
  }

  offerAfresh(offered: boolean): void {
    element("afresh").hidden = !offered;
  }

  /** @param sample the one that stands there unchanged, null for a workbook of the user's */
  showOpen(title: string, sample: Sample | null): void {
    document.title = title === "" ? host.title : `${title} - ${host.title}`;
    this.none.text = title === "" ? host.noSample : title;
    this.showSample(sample);
    this.say("");
    this.note("");
  }

  showSample(sample: Sample | null): void {
    this.picker.value = sample ? String(host.samples.indexOf(sample)) : "";
  }

  /** Whether and when the workbook was kept. */
  showKept(sentence: string, isTrouble: boolean): void {
    this.kept.textContent = sentence;
    this.kept.classList.toggle("trouble", isTrouble);
  }

  /** What the page is doing, while it does it. */
  say(sentence: string): void {
    this.doing.textContent = sentence;
  }

  /** What the user should know; it stays until it is closed. */
  note(sentence: string): void {
    this.status.textContent = sentence;
    this.status.classList.remove("trouble");
  }

  complain(sentence: string): void {
    this.status.textContent = sentence;
    this.status.classList.add("trouble");
  }
}

function element(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (!found) throw new Error(`The page has no element "${id}".`);
  return found;
}
