const KEY = "F6";
const CAN_TAKE_FOCUS = 'select:not([disabled]), [role="tab"][aria-selected="true"], button:not([disabled])';

/**
 * Moves the keyboard from one area of the page to the next with F6, and back with Shift+F6, as spreadsheets do: Tab belongs to
 * the cells there. Each area gets the focus back where it was.
 */
export function moveBetween(areas: readonly HTMLElement[]): void {
  const last = new Map<HTMLElement, HTMLElement>();
  document.addEventListener("focusin", ({ target }) => {
    const area = areas.find((one) => target instanceof HTMLElement && one.contains(target));
    if (area) last.set(area, target as HTMLElement);
  });
  // Before the grid, which would take the key as one of its own.
  window.addEventListener(
    "keydown",
    (event) => {
      if (event.key !== KEY || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      event.stopPropagation();
      const from = areas.findIndex((area) => area.contains(document.activeElement));
      const step = event.shiftKey ? areas.length - 1 : 1;
      const to = areas[(Math.max(from, 0) + step) % areas.length];
      if (to) focusIn(to, last.get(to));
    },
    { capture: true },
  );
}

function focusIn(area: HTMLElement, before: HTMLElement | undefined): void {
  const target = before?.isConnected && area.contains(before) ? before : area.querySelector<HTMLElement>(CAN_TAKE_FOCUS);
  target?.focus();
}
