import { pane } from "../words/pane";

/** The task pane's page in Excel: the functions have loaded before, the pane's own code comes when Excel is ready. */
void Office.onReady(async ({ host }) => {
  const element = document.getElementById("pane");
  if (!element) return;
  if (!host) {
    element.textContent = pane.notExcel;
    return;
  }
  const { mountPane } = await import(/* webpackChunkName: "pane" */ "./index");
  mountPane(element);
});
