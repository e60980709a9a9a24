"""Makes the openpyxl-*.xlsx workbooks beside this file. All figures are invented.

python3 -m venv venv && venv/bin/pip install openpyxl==3.1.5 pillow && venv/bin/python make-openpyxl.py
"""
import datetime
import pathlib
import sys

import openpyxl
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.chart import BarChart, LineChart, PieChart, Reference, ScatterChart, Series
from openpyxl.comments import Comment
from openpyxl.drawing.image import Image
from openpyxl.formatting.rule import CellIsRule, ColorScaleRule, DataBarRule, FormulaRule, IconSetRule
from openpyxl.styles import Alignment, Border, Font, PatternFill, Protection, Side
from openpyxl.utils.datetime import CALENDAR_MAC_1904
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.formula import ArrayFormula, DataTableFormula
from openpyxl.worksheet.table import Table, TableStyleInfo
from PIL import Image as Picture

HERE = pathlib.Path(__file__).parent
DAY = datetime.date(2026, 1, 31)


def log(book=None, title="Log", rows=9):
    """A log of feed and nitrate, with a number, a text, a truth and an error worked out in each row."""
    book = book or openpyxl.Workbook()
    sheet = book.active
    sheet.title = title
    sheet.append(["Day", "Feed, g", "NO3, mg/L", "Twice", "Words", "Much", "Error"])
    for row in range(2, rows + 2):
        sheet.append([DAY + datetime.timedelta(days=row), row / 8, 10 + row, f"=B{row}*2", f'=IF(B{row}>0.5,"much & more","<little>")', f"=B{row}>0.5", f"=1/(C{row}-C{row})"])
    return book, sheet


def keep(book, name):
    stamp = datetime.datetime(2026, 1, 1)
    book.properties.created = book.properties.modified = stamp
    book.save(HERE / f"openpyxl-{name}.xlsx")


def picture():
    path = HERE / ".dot.png"
    Picture.new("RGB", (8, 8), (15, 118, 110)).save(path)
    return path


book, _ = log()
keep(book, "plain")

book, sheet = log()
for place, chart in (("I2", BarChart()), ("I18", LineChart()), ("I34", PieChart())):
    chart.title = "Feed & nitrate"
    chart.add_data(Reference(sheet, min_col=2, max_col=3, min_row=1, max_row=10), titles_from_data=True)
    sheet.add_chart(chart, place)
scatter = ScatterChart()
scatter.series.append(Series(Reference(sheet, min_col=4, min_row=2, max_row=10), Reference(sheet, min_col=2, min_row=2, max_row=10), title="twice"))
sheet.add_chart(scatter, "R2")
book.create_chartsheet("Chart").add_chart(BarChart())
keep(book, "charts")

book, sheet = log()
sheet["B2"].comment = Comment("Weighed on kitchen scales", "nobody")
sheet["D3"].comment = Comment("Not a formula to trust", "nobody")
sheet["A1"].hyperlink = "https://example.com/log?a=1&b=2"
sheet["C1"].hyperlink = "#Log!D2"
sheet.add_image(Image(picture()), "I2")
keep(book, "comments-links-picture")

book, sheet = log()
for rule in (
    DataValidation(type="list", formula1='"harvest,week"', allow_blank=True, showErrorMessage=True),
    DataValidation(type="decimal", operator="between", formula1="0", formula2="$C$2"),
    DataValidation(type="custom", formula1="ISNUMBER(B2)"),
):
    rule.add("B2:B10")
    sheet.add_data_validation(rule)
sheet.conditional_formatting.add("B2:B10", DataBarRule(start_type="min", end_type="max", color="0F766E"))
sheet.conditional_formatting.add("C2:C10", ColorScaleRule(start_type="min", start_color="FFFFFF", end_type="max", end_color="7F1D1D"))
sheet.conditional_formatting.add("D2:D10", IconSetRule("3Arrows", "percent", [0, 33, 67]))
sheet.conditional_formatting.add("D2:D10", CellIsRule(operator="greaterThan", formula=["1"], font=Font(bold=True), fill=PatternFill(bgColor="FEF9C3")))
sheet.conditional_formatting.add("A2:G10", FormulaRule(formula=['$E2="<little>"'], stopIfTrue=True, font=Font(italic=True)))
keep(book, "rules")

book, sheet = log()
table = Table(displayName="LogTable", ref="A1:G10")
table.tableStyleInfo = TableStyleInfo(name="TableStyleMedium4", showRowStripes=True)
sheet.add_table(table)
book.defined_names["Feed"] = DefinedName("Feed", attr_text="Log!$B$2:$B$10")
book.defined_names["Twice_all"] = DefinedName("Twice_all", attr_text="SUM(Log!$D$2:$D$10)")
sheet.print_title_rows = "1:1"
sheet.print_area = "A1:G10"
sheet.oddHeader.center.text = "Log & page &P"
sheet.page_setup.orientation = "landscape"
sheet["I2"] = "=SUM(Feed)"
sheet["I3"] = "=SUM(LogTable[Feed, g])"
keep(book, "table-names-print")

book, sheet = log()
sheet.merge_cells("I2:K4")
sheet["I2"] = "=SUM(D2:D10)"
sheet["I2"].border = Border(*[Side("double", "1E3A8A")] * 4)
sheet["I2"].alignment = Alignment(horizontal="center", vertical="top", wrap_text=True, text_rotation=45)
sheet.freeze_panes = "B2"
sheet.auto_filter.ref = "A1:G10"
sheet.row_dimensions.group(3, 5, hidden=True)
sheet.column_dimensions.group("C", "C", outline_level=1)
sheet.column_dimensions["A"].width = 22
sheet.sheet_properties.tabColor = "0F766E"
sheet.sheet_view.zoomScale = 85
keep(book, "merged-frozen-grouped")

book, sheet = log(title="سجل")
sheet.sheet_view.rightToLeft = True
sheet["A1"] = "اليوم"
sheet["E2"] = '=IF(B2>0.1,"كثير","قليل")'
sheet["I2"] = "='سجل'!D2*2"
keep(book, "right-to-left")

book = openpyxl.Workbook()
book.epoch = CALENDAR_MAC_1904
book, sheet = log(book)
sheet["I2"] = "=A3-A2"
sheet["I3"] = "=YEAR(A2)"
keep(book, "calendar-1904")

book, sheet = log()
sheet["I2"] = ArrayFormula("I2:I10", "=B2:B10*C2:C10")
sheet["J2"] = ArrayFormula("J2", "=SUM(B2:B10*C2:C10)")
sheet["L1"] = "=B2*10"
sheet["K2"], sheet["K3"] = 1, 2
sheet["L2"] = DataTableFormula(ref="L2:L3", dt2D=False, dtr=False, r1="B2")
keep(book, "array-formulas")

book, sheet = log()
other = book.create_sheet("Foods & 'more'")
other["A1"] = "=Log!D2&\" of \"&Log!A1"
other["A2"] = CellRichText("Nori, ", TextBlock(InlineFont(b=True, color="0F766E"), "invented"))
other.sheet_state = "hidden"
book.create_sheet("Put away").sheet_state = "veryHidden"
book["Put away"]["B2"] = "='Foods & ''more'''!A1"
sheet.protection.sheet = True
sheet["B2"].protection = Protection(locked=False)
keep(book, "hidden-protected-rich")

(HERE / ".dot.png").unlink()

# A workbook with a pivot table, opened and saved again.
if len(sys.argv) > 1:
    keep(openpyxl.load_workbook(sys.argv[1]), "pivot-kept")
