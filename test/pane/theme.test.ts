import { isDarkColour, officeIsDark } from "../../src/pane/theme";

/** The themes of Office by the ground colour that they give a pane. */
it.each([
  ["#FFFFFF", false],
  ["#E6E6E6", false],
  ["#444444", true],
  ["#262626", true],
  ["#000000", true],
  ["262626", true],
])("reads %s as dark: %s", (colour, dark) => {
  expect(isDarkColour(colour)).toBe(dark);
});

it("leaves a notation that it does not know to the browser", () => {
  expect(isDarkColour("white")).toBeUndefined();
});

describe("in Excel", () => {
  const withTheme = (theme: Partial<Office.OfficeTheme> | undefined): boolean | undefined => {
    Object.assign(globalThis, { Office: { context: { officeTheme: theme } } });
    try {
      return officeIsDark();
    } finally {
      delete (globalThis as { Office?: unknown }).Office;
    }
  };

  it("believes Excel's own word before the colour", () => {
    expect(withTheme({ isDarkTheme: true, bodyBackgroundColor: "#FFFFFF" })).toBe(true);
    expect(withTheme({ isDarkTheme: false, bodyBackgroundColor: "#000000" })).toBe(false);
  });

  it("takes the colour where Excel gives no word, and nothing where it gives neither", () => {
    expect(withTheme({ bodyBackgroundColor: "#262626" })).toBe(true);
    expect(withTheme({})).toBeUndefined();
    expect(withTheme(undefined)).toBeUndefined();
  });

  it("says nothing where there is no Office", () => {
    expect(officeIsDark()).toBeUndefined();
  });
});
