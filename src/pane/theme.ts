import { type Theme, webDarkTheme, webLightTheme } from "@fluentui/react-components";
import { useSyncExternalStore } from "react";

const DARK = "(prefers-color-scheme: dark)";

interface PaneTheme {
  readonly theme: Theme;
  /** For what the browser draws itself: scroll bars, the caret. */
  readonly colorScheme: "light" | "dark";
}

const LIGHT_THEME: PaneTheme = { theme: webLightTheme, colorScheme: "light" };
const DARK_THEME: PaneTheme = { theme: webDarkTheme, colorScheme: "dark" };

/** Light or dark as Excel is; where Excel does not say, as the browser is. Forced colours are the browser's own doing. */
export function usePaneTheme(): PaneTheme {
  return useSyncExternalStore(onThemeChange, isDark, () => false) ? DARK_THEME : LIGHT_THEME;
}

function isDark(): boolean {
  return officeIsDark() ?? window.matchMedia(DARK).matches;
}

/** Excel announces no change of its theme to a pane, so it is asked again when the pane comes back into use. */
function onThemeChange(listener: () => void): () => void {
  const scheme = window.matchMedia(DARK);
  scheme.addEventListener("change", listener);
  window.addEventListener("focus", listener);
  return () => {
    scheme.removeEventListener("change", listener);
    window.removeEventListener("focus", listener);
  };
}

/** undefined where there is no Office, or an edition that does not tell its theme. */
export function officeIsDark(): boolean | undefined {
  if (typeof Office === "undefined") return undefined;
  const theme: Partial<Office.OfficeTheme> | undefined = Office.context?.officeTheme;
  if (typeof theme?.isDarkTheme === "boolean") return theme.isDarkTheme;
  const background = theme?.bodyBackgroundColor;
  return background === undefined ? undefined : isDarkColour(background);
}

/** Whether white reads better than black on a colour "#rrggbb" (WCAG 2.2 relative luminance); undefined for another notation. */
export function isDarkColour(colour: string): boolean | undefined {
  const digits = /^#?([0-9a-f]{6})$/i.exec(colour.trim())?.[1];
  if (digits === undefined) return undefined;
  const [red = 0, green = 0, blue = 0] = [0, 2, 4].map((place) => linear(parseInt(digits.slice(place, place + 2), 16) / 255));
  const luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  return 1.05 / (luminance + 0.05) > (luminance + 0.05) / 0.05;
}

function linear(channel: number): number {
  return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
}
