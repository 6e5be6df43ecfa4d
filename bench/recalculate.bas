REM Times how long the spreadsheet program takes to work the whole sheet out anew, and writes what it found.
REM Before it runs, FROM and TO are replaced by the address of the sheet and by the file to write.
Sub Measure
  Dim nothing(0) As New com.sun.star.beans.PropertyValue
  nothing(0).Name = "Hidden"
  nothing(0).Value = True
  book = StarDesktop.loadComponentFromURL("FROM", "_blank", 0, nothing())
  Open "TO" For Output As #1
  For warm = 1 To 5
    book.calculateAll()
  Next
  For round = 1 To 75
    begun = GetSystemTicks()
    book.calculateAll()
    Print #1, "milliseconds" & Chr(9) & CStr(GetSystemTicks() - begun)
  Next
  sheet = book.Sheets.getByIndex(0)
  cursor = sheet.createCursor()
  cursor.gotoEndOfUsedArea(False)
  last = cursor.RangeAddress
  rows = sheet.getCellRangeByPosition(0, 17, last.EndColumn, last.EndRow).getDataArray()
  For row = 0 To UBound(rows)
    cells = rows(row)
    line = ""
    For place = 0 To UBound(cells)
      line = line & CStr(cells(place)) & Chr(9)
    Next
    Print #1, line
  Next
  Close #1
  book.close(True)
  StarDesktop.terminate()
End Sub
