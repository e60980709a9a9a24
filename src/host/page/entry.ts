import type { Book } from "../../files/book";
import examples from "../../functions/generated/examples.json";
import metadata from "../../functions/generated/functions.json";
import { worksheetFunctions } from "../../functions/index";
import type { ProblemBook } from "../../functions/problem-book";
import { problems } from "../../functions/problems";
import { host } from "../../words/host";
import { installExcel } from "../excel/install";
import { createGrid } from "../grid/grid";
import type { GridPort } from "../grid-port";
import { Desk } from "./desk";
import { onFileDrop } from "./open-file";
import { Shell } from "./shell";

declare global {
  interface Window {
    /** For the browser tests: the grid, the list of problems, when the first workbook stands and the pane is there, and when all is calculated. */
    algalLedger: { port: GridPort; problems: ProblemBook; ready: Promise<void>; settled(): Promise<void>; open(book: Book, title: string): Promise<void> };
  }
}

const shell = new Shell();
const grid = createGrid(shell.grid, { metadata, functions: worksheetFunctions, examples }, problems);
const desk = new Desk(grid, shell);
window.algalLedger = { port: grid.port, problems, ready: start(), settled: () => grid.settled(), open: (book, title) => desk.take(book, title) };

async function start(): Promise<void> {
  shell.offer(host.samples, (sample) => void desk.openSample(sample));
  shell.offerFiles({ open: (file) => void desk.openFile(file), download: () => void desk.download(), afresh: () => void desk.startAfresh() });
  onFileDrop((file) => void desk.openFile(file), (sentence) => shell.complain(sentence));
  await desk.start();
  installExcel(grid.port, desk.hostFile());
  await showPane();
}

/** After the functions and the grid, so that the pane's code delays neither. */
async function showPane(): Promise<void> {
  try {
    const { mountPane } = await import(/* webpackChunkName: "pane" */ "../../pane/index");
    mountPane(shell.pane);
  } catch {
    shell.complain(host.paneMissing);
  }
}
