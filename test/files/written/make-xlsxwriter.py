"""Makes the xlsxwriter-*.xlsx workbooks beside this file. All figures are invented.

python3 -m venv venv && venv/bin/pip install xlsxwriter==3.2.9 pillow && venv/bin/python make-xlsxwriter.py
"""
import datetime
import io
import pathlib

import xlsxwriter
from PIL import Image

HERE = pathlib.Path(__file__).parent
MADE = datetime.datetime(2026, 1, 1)
DAY = datetime.datetime(2026, 1, 31)


def picture():
    bytes_ = io.BytesIO()
    Image.new("RGB", (8, 8), (127, 29, 29)).save(bytes_, "PNG")
    return bytes_


def book(name, **options):
    made = xlsxwriter.Workbook(HERE / f"xlsxwriter-{name}.xlsx", options)
    made.set_properties({"title": "An invented log", "created": MADE})
    return made


def log(made, title="Log", rows=9):
    """A log of feed and nitrate, with a number, a text, a truth and an error worked out in each row, and their values stored."""
    sheet = made.add_worksheet(title)
    day = made.add_format({"num_format": "yyyy-mm-dd"})
    sheet.write_row(0, 0, ["Day", "Feed, g", "NO3, mg/L", "Twice", "Words", "Much", "Error"])
    for row in range(1, rows + 1):
        feed = row / 8
        sheet.write_datetime(row, 0, DAY + datetime.timedelta(days=row), day)
        sheet.write_number(row, 1, feed)
        sheet.write_number(row, 2, 10 + row)
        sheet.write_formula(row, 3, f"=B{row + 1}*2", None, feed * 2)
        sheet.write_formula(row, 4, f'=IF(B{row + 1}>0.5,"much & more","<little>")', None, "much & more" if feed > 0.5 else "<little>")
        sheet.write_formula(row, 5, f"=B{row + 1}>0.5", None, feed > 0.5)
        sheet.write_formula(row, 6, f"=1/(C{row + 1}-C{row + 1})", None, "#DIV/0!")
    return sheet


with book("spills") as made:
    sheet = log(made)
    sheet.write_dynamic_array_formula("I2:I10", "=SORT(B2:B10,,-1)", None, 1.125)
    for row in range(2, 10):
        sheet.write_number(row, 8, (10 - row) / 8)
    sheet.write_dynamic_array_formula("K2:L3", '=_xlfn._xlws.FILTER(B2:C10,B2:B10>1)', None, 1.125)
    sheet.write_number("L2", 19)
    sheet.write_array_formula("N2:N3", "{=B2:B3*2}", None, 0.25)
    sheet.write_number("N3", 0.5)
    sheet.write_formula("P2", "=SUM(_xlfn.ANCHORARRAY(I2))", None, 5.625)
    sheet.write_formula("P3", "=_xlfn.LET(_xlpm.x,B2,_xlpm.x*2)", None, 0.25)

with book("charts") as made:
    sheet = log(made)
    for place, kind in (("I2", "column"), ("I20", "line"), ("R2", "scatter"), ("R20", "doughnut"), ("I38", "stock")):
        chart = made.add_chart({"type": kind})
        for column in (1, 2, 3) if kind == "stock" else (1, 3):
            chart.add_series({"name": ["Log", 0, column], "categories": ["Log", 1, 0, 9, 0], "values": ["Log", 1, column, 9, column], **({"trendline": {"type": "linear"}} if kind == "scatter" else {})})
        chart.set_title({"name": "Feed & <nitrate>"})
        sheet.insert_chart(place, chart)
    chart = made.add_chart({"type": "bar"})
    chart.add_series({"values": "=Log!$B$2:$B$10"})
    made.add_chartsheet("Chart").set_chart(chart)

with book("sparklines-shapes") as made:
    sheet = log(made)
    sheet.add_sparkline("I2", {"range": "Log!B2:B10", "type": "column", "high_point": True})
    sheet.insert_textbox("K2", "An invented log", {"width": 120, "height": 40})
    sheet.insert_image("K6", "dot.png", {"image_data": picture(), "url": "https://example.com/"})
    sheet.set_header("&L&G&RPage &P", {"image_left": "dot.png", "image_data_left": picture()})
    sheet.insert_button("K12", {"caption": "Nothing"})

with book("comments") as made:
    sheet = log(made)
    sheet.write_comment("B2", "Weighed on kitchen scales", {"author": "nobody", "visible": True})
    sheet.write_comment("D2", "=1+1 is a text here")
    sheet.write_url("A12", "https://example.com/?a=1&b=2", string="a link")
    sheet.write_url("A13", "internal:Log!D2")
    sheet.write_rich_string("A14", "N", made.add_format({"font_script": 2}), "2", " and ", made.add_format({"bold": True}), "more")
    sheet.write_string("A15", "=1+1")
    sheet.write_string("A16", "@here +1 -1")

with book("rules") as made:
    sheet = log(made)
    bold = made.add_format({"bold": True, "bg_color": "#FEF9C3"})
    sheet.conditional_format("B2:B10", {"type": "data_bar", "data_bar_2010": True, "bar_negative_color": "#7F1D1D"})
    sheet.conditional_format("C2:C10", {"type": "3_color_scale"})
    sheet.conditional_format("D2:D10", {"type": "icon_set", "icon_style": "4_ratings"})
    sheet.conditional_format("E2:E10", {"type": "text", "criteria": "containing", "value": "much", "format": bold})
    sheet.conditional_format("A2:G10", {"type": "formula", "criteria": "=$B2>1", "format": bold, "stop_if_true": True})
    sheet.data_validation("B2:B10", {"validate": "decimal", "criteria": ">=", "value": 0, "input_title": "Feed", "input_message": "in g"})
    sheet.data_validation("E2:E10", {"validate": "list", "source": ["harvest", "week"]})

with book("tables") as made:
    sheet = log(made)
    sheet.add_table("I1:K5", {"name": "Feeds", "total_row": True, "columns": [{"header": "Feed", "total_string": "Sum"}, {"header": "g", "total_function": "sum"}, {"header": "Twice", "formula": "=[@g]*2", "total_function": "average"}], "data": [["Nori", 1, None], ["Peas", 2, None], ["Mysis", 3, None]]})
    made.define_name("Feed", "=Log!$B$2:$B$10")
    made.define_name("Log!Own", "=Log!$A$1")
    sheet.repeat_rows(0)
    sheet.repeat_columns("A:B")
    sheet.print_area("A1:K10")
    sheet.autofilter("A1:G10")
    sheet.filter_column("B", "x > 0.2")

with book("calendar-1904", date_1904=True) as made:
    sheet = log(made)
    sheet.write_formula("I2", "=A3-A2", None, 1)

with book("right-to-left") as made:
    sheet = log(made, "יומן")
    sheet.right_to_left()
    sheet.freeze_panes(1, 1)
    sheet.write_formula("I2", "='יומן'!D2&\" גרם\"", None, "0.25 גרם")

with book("row-by-row", constant_memory=True) as made:
    log(made)
    hidden = made.add_worksheet("Put away")
    hidden.very_hidden()
    hidden.write_formula("B2", "=Log!D2", None, 0.25)

with book("grouped-merged") as made:
    sheet = log(made)
    sheet.merge_range("I2:K4", "", made.add_format({"border": 1}))
    sheet.write_formula("I2", "=SUM(D2:D10)", None, 11.25)
    sheet.set_row(3, 30, None, {"level": 1, "hidden": True})
    sheet.set_column("C:C", 20, made.add_format({"num_format": "0.00"}), {"level": 1})
    sheet.ignore_errors({"number_stored_as_text": "A1:A9"})
    sheet.protect("", {"sort": True})
    made.set_custom_property("Tank", "invented")
