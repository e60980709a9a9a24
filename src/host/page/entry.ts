import type { Book } from "../../files/book";
import examples from "../../functions/generated/examples.json";
import metadata from "../../functions/generated/functions.json";
import { worksheetFunctions } from "../../functions/index";
import type { ProblemBook } from "../../functions/problem-book";
import { problems } from "../../functions/problems";
import { Problem } from "../../science/problem";
import { host } from "../../words/host";
import { installExcel } from "../excel/install";
import { createGrid, type Grid } from "../grid/grid";
import type { GridPort } from "../grid-port";
import { fetchSample, type Sample } from "./samples";
import { Shell } from "./shell";

declare global {
  interface Window {
    /** For the browser tests: the grid, the list of problems, and when the first workbook stands and the pane is there. */
    algalLedger: { port: GridPort; problems: ProblemBook; ready: Promise<void>; open(book: Book, title: string): Promise<void> };
  }
}

const shell = new Shell();
const grid = createGrid(shell.grid, { metadata, functions: worksheetFunctions, examples }, problems);
window.algalLedger = { port: grid.port, problems, ready: start(grid), open: (book, title) => grid.open(book, title) };

async function start(to: Grid): Promise<void> {
  shell.offer(host.samples, (sample) => void show(to, sample));
  const [first] = host.samples;
  // The grid needs a workbook to stand on, even when the sample does not come.
  if (!first || !(await show(to, first))) await to.open({ sheets: [{ name: host.emptySheet, cells: new Map() }], names: [], date1904: false }, "");
  installExcel(to.port);
  await showPane();
}

async function show(to: Grid, sample: Sample): Promise<boolean> {
  shell.say(host.opening(sample.title));
  try {
    await to.open(await fetchSample(sample), sample.title);
    shell.showOpen(sample.title);
    return true;
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    shell.complain(host.notOpened(sample.title, error.message));
    return false;
  }
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
