#!/bin/sh
# Makes the libreoffice-*.xlsx workbooks beside this file with LibreOffice 7.4: two from flat files, the others by opening a workbook
# of another writer and saving it again. All figures are invented.
set -e
cd "$(dirname "$0")"
folder=$(mktemp -d)
cp pivot.fods "$folder/libreoffice-pivot.fods"
cp ../office-log.fods "$folder/libreoffice-log.fods"
for one in openpyxl-charts openpyxl-calendar-1904 openpyxl-right-to-left xlsxwriter-comments xlsxwriter-rules xlsxwriter-tables xlsxwriter-sparklines-shapes; do
  cp "$one.xlsx" "$folder/libreoffice-from-$one.xlsx"
done
soffice "-env:UserInstallation=file://$folder/profile" --headless --convert-to "xlsx:Calc MS Excel 2007 XML" --outdir "$folder/out" "$folder"/libreoffice-*.fods "$folder"/libreoffice-*.xlsx
mv "$folder"/out/*.xlsx .
rm -r "$folder"
