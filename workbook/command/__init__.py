"""The commands that need several parts of the workbook, a module each."""
