import { type Injector, LocaleType, LogLevel, ThemeService, Univer } from "@univerjs/core";
import { UniverSheetsCorePreset } from "@univerjs/preset-sheets-core";
import english from "@univerjs/preset-sheets-core/locales/en-US";
import { CalculationMode } from "@univerjs/sheets-formula";
import { readDatesAsIn } from "../engine/typed-dates";
import { hiddenMenuItems } from "./menu";
import { stepwiseUndo } from "./stepwise-undo";
import "@univerjs/preset-sheets-core/lib/index.css";
import "./grid.css";

/** Starts the visible grid in an element; no workbook is open yet. */
export function startGrid(container: HTMLElement): { univer: Univer; injector: Injector } {
  readDatesAsIn(navigator.language);
  const univer = new Univer({ locale: LocaleType.EN_US, locales: { [LocaleType.EN_US]: english }, logLevel: LogLevel.ERROR, override: stepwiseUndo });
  const { plugins } = UniverSheetsCorePreset({
    container,
    ribbonType: "simple",
    menu: hiddenMenuItems(),
    disableAutoFocus: true,
    footer: { menus: false },
    formula: { initialFormulaComputing: CalculationMode.NO_CALCULATION },
  });
  for (const plugin of plugins) {
    if (Array.isArray(plugin)) univer.registerPlugin(plugin[0], plugin[1]);
    else univer.registerPlugin(plugin);
  }
  const injector = univer.__getInjector();
  followColourScheme(injector);
  return { univer, injector };
}

function followColourScheme(injector: Injector): void {
  const dark = window.matchMedia("(prefers-color-scheme: dark)");
  const apply = () => injector.get(ThemeService).setDarkMode(dark.matches);
  dark.addEventListener("change", apply);
  apply();
}
