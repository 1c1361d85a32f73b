"""The cable schedule: its values, and how it is written as text, CSV and workbook."""
