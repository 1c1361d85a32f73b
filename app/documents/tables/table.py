"""A table as plain values: what its columns are called and measure, and its rows, each with the things it is about."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.documents.tables.measure import Measure

Cell = str | float | int | None


@dataclass(frozen=True)
class Column:
    """A column; without a ``measure`` its cells are text."""

    heading: str
    measure: Measure | None = None


@dataclass(frozen=True)
class Row:
    """A row's cells, under the table's columns, and the ids of the ``things`` that it is about."""

    cells: tuple[Cell, ...]
    things: tuple[str, ...] = ()


@dataclass(frozen=True)
class Table:
    """One table: ``key`` names its file and sheet, ``title`` heads it, ``words`` say what it tells and on what basis.

    Numbers are in the measure's imperial unit; ``units`` are the plan's, in which they leave.
    Raises ``ValueError`` where a row does not fit the columns.
    """

    key: str
    title: str
    words: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    units: str

    def __post_init__(self) -> None:
        for row in self.rows:
            if len(row.cells) != len(self.columns):
                raise ValueError(f"{self.key}: a row has {len(row.cells)} cells under {len(self.columns)} columns")

    @property
    def headings(self) -> list[str]:
        """The headings, each with its unit in brackets."""
        return [self._heading(column) for column in self.columns]

    def _heading(self, column: Column) -> str:
        unit = column.measure.unit(self.units) if column.measure else ""
        return f"{column.heading} ({unit})" if unit else column.heading

    def values(self, row: Row) -> list[Cell]:
        """A row's cells in the plan's units: numbers as numbers, text as text, None where nothing is known."""
        return [
            column.measure.number(cell, self.units) if column.measure and isinstance(cell, int | float) else cell
            for column, cell in zip(self.columns, row.cells, strict=True)
        ]

    def shown(self, row: Row) -> list[str]:
        """A row's cells as people read them."""
        return [
            column.measure.shown(cell, self.units)
            if column.measure and isinstance(cell, int | float)
            else "—"
            if cell is None or cell == ""
            else f"{cell:g}"
            if isinstance(cell, float)
            else str(cell)
            for column, cell in zip(self.columns, row.cells, strict=True)
        ]


def columns(*said: str | tuple[str, Measure]) -> tuple[Column, ...]:
    """Columns from headings, those that measure something with their measure."""
    return tuple(Column(one) if isinstance(one, str) else Column(*one) for one in said)


def rows(cells: Iterable[tuple[Cell, ...]], things: Iterable[Sequence[str]]) -> tuple[Row, ...]:
    """Rows from their cells and what each is about."""
    return tuple(Row(tuple(one), tuple(about)) for one, about in zip(cells, things, strict=True))
