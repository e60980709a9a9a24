import { createRoot } from "react-dom/client";
import { problems } from "../functions/problems";
import { Pane } from "./pane";
import { ProblemList } from "./problems/problem-list";

/**
 * Shows the pane in an element. `Excel` has to stand: Excel's own, or the local host's (src/host/excel).
 * @returns the function that takes the pane away again
 */
export function mountPane(element: HTMLElement): () => void {
  const problemList = new ProblemList(problems);
  const root = createRoot(element);
  root.render(<Pane problemList={problemList} />);
  const end = problemList.start();
  return () => {
    end();
    root.unmount();
  };
}
