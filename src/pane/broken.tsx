import { Component, type ReactNode } from "react";
import { pane } from "../words/pane";

/** Keeps a fault of one screen to that screen, and says so in place of it. */
export class KeepsFaults extends Component<{ children: ReactNode }, { failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError(): { failed: boolean } {
    return { failed: true };
  }

  override render(): ReactNode {
    return this.state.failed ? <p role="alert">{pane.broken}</p> : this.props.children;
  }
}
