"""What every table shares: named constraints, the integer key, the version, and what history may tell."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Any, ClassVar

from sqlalchemy import Index, Integer, MetaData, Text, text
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.orm import DeclarativeBase, Mapped, declared_attr, mapped_column
from sqlalchemy.schema import CreateIndex

from app.book.columns import BIG, REAL8, Day, DecimalText, Flagged, Instant

PERSONAL = {"personal": True}  # info of a column whose text history keeps only hashed, and can blank


class Base(DeclarativeBase):
    """The declarative base. SQLite tables are STRICT, so a column holds only what its type says."""

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "ck": "ck_%(table_name)s_%(constraint_name)s",
            "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
            "pk": "pk_%(table_name)s",
        }
    )
    type_annotation_map: ClassVar[dict[Any, Any]] = {
        str: Text(),
        int: Integer(),
        float: REAL8,
        bool: Flagged(),
        datetime: Instant(),
        date: Day(),
        Decimal: DecimalText(),
    }
    __table_args__: Any = {"sqlite_strict": True}

    # False for tables that are themselves bookkeeping of the door (history, index, numbers).
    told: ClassVar[bool] = True


class Row:
    """A row with an integer key that never means anything to people."""

    id: Mapped[int] = mapped_column(primary_key=True)


class Versioned(Row):
    """A row that people edit: the second saver of the same version is told, not obeyed."""

    version: Mapped[int] = mapped_column(default=1)

    @declared_attr.directive
    @classmethod
    def __mapper_args__(cls) -> dict[str, Any]:
        return {"version_id_col": cls.version}


def minor() -> Any:
    """A column of money in minor units of the shop's currency."""
    return mapped_column(BIG)


def micro() -> Any:
    """A column of unit price or quantity in millionths."""
    return mapped_column(BIG)


def strict(*args: Any) -> tuple[Any, ...]:
    """Table arguments with STRICT kept: ``__table_args__ = strict(Index(...))``."""
    return (*args, {"sqlite_strict": True})


def unique_while(name: str, *columns: Any, where: str) -> Index:
    """A unique index over those rows only for which ``where`` holds."""
    return Index(name, *columns, unique=True, sqlite_where=text(where), info={"where": where})


@compiles(CreateIndex, "postgresql")
def _with_where(create: CreateIndex, compiler: Any, **more: Any) -> str:
    """The same for PostgreSQL, said when it is asked: named above, its dialect would be loaded at every start."""
    index: Any = create.element
    if where := index.info.get("where"):
        index.dialect_options["postgresql"]["where"] = text(where)
    made: str = compiler.visit_create_index(create, **more)
    return made
