import { host } from "../../words/host";
import { moveBetween } from "./areas";
import type { Sample } from "./samples";
import "./page.css";

/** The page around the grid: its name, the picker, and a line that says what happened. */
export class Shell {
  readonly grid = element("grid");
  readonly pane = element("pane");
  private readonly picker = element("sample") as HTMLSelectElement;
  private readonly status = element("status");

  constructor() {
    document.title = host.title;
    element("name").textContent = host.title;
    element("sample-label").textContent = host.samplePicker;
    element("privacy").textContent = host.privacy;
    this.grid.setAttribute("aria-label", host.gridLabel);
    this.pane.setAttribute("aria-label", host.paneLabel);
    element("keys").textContent = host.nextArea;
    moveBetween([element("bar"), this.grid, this.pane]);
  }

  offer(samples: readonly Sample[], choose: (sample: Sample) => void): void {
    this.picker.replaceChildren(...samples.map(({ title }, i) => new Option(title, String(i))));
    this.picker.disabled = samples.length === 0;
    this.picker.addEventListener("change", () => {
      const sample = samples[Number(this.picker.value)];
      if (sample) choose(sample);
    });
  }

  showOpen(title: string): void {
    document.title = `${title} - ${host.title}`;
    this.say("");
  }

  say(sentence: string): void {
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
