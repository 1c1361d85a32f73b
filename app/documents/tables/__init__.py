"""Every table of a plan, described once: columns with their measures, and rows of plain values.

The workbook, the CSV files and the share page all write these; a module here is a family of tables.
"""
