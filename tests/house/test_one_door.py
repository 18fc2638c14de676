"""Things that may happen in one place only, so that the care taken there is taken everywhere."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

HEAVY = {
    "numpy",
    "scipy",
    "babel",
    "reportlab",
    "pyqtgraph",
    "alembic",
    "PIL",
    "pypdfium2",
    "segno",
    "argon2",
    "facturx",
    "pypdf",
}


def called(source: Any) -> list[tuple[int, str]]:
    """Line and last name of everything that is called or subclassed."""
    found = []
    for node in source.walk():
        for thing in [node.func] if isinstance(node, ast.Call) else getattr(node, "bases", []):
            found.append((node.lineno, ast.unparse(thing).rpartition(".")[2]))
    return found


def places(sources: list[Any], names: set[str]) -> list[str]:
    """Where any of these names is called or subclassed."""
    return [f"{s.name}:{line} {name}" for s in sources for line, name in called(s) if name in names]


def test_text_on_screen_is_plain_because_one_label_makes_it_so(app_sources: list[Any]) -> None:
    """A QLabel or a message box obeys <b> and <img> in what a customer said."""
    door = "app/screens/kit/label.py"
    others = [source for source in app_sources if source.name != door]
    assert places(others, {"QLabel", "QMessageBox", "QErrorMessage"}) == []
    for source in app_sources:
        if source.name == door:
            assert "PlainText" in source.text


def test_no_screen_turns_on_rich_text(app_sources: list[Any]) -> None:
    """The one page with markup shows our own help files."""
    words = re.compile(r"RichText|AutoText|setHtml|setMarkdown|insertHtml|appendHtml|QTextBrowser")
    found = {source.name for source in app_sources if words.search(source.text)}
    assert found - {"app/screens/frame/help_margin.py"} == set()


def test_what_a_tooltip_shows_is_made_plain_or_is_our_own_sentence(app_sources: list[Any]) -> None:
    found = []
    for source in app_sources:
        for node in source.walk():
            if isinstance(node, ast.Call) and ast.unparse(node.func).endswith(
                (".setToolTip", "QToolTip.showText")
            ):
                told = node.args[1 if ast.unparse(node.func).endswith("showText") else 0]
                plain = ast.unparse(told).startswith("plain_tip(") or fixed(told)
                if not plain and "plain_tip(" not in source.text:
                    found.append(f"{source.name}:{node.lineno} {ast.unparse(told)}")
    assert found == []


def fixed(told: ast.expr) -> bool:
    """Whether it is words of ours alone: a constant, or `say` of one without values."""
    if isinstance(told, ast.Call) and ast.unparse(told.func) == "say":
        return len(told.args) == 1 and not told.keywords and fixed(told.args[0])
    return isinstance(told, ast.Constant)


def test_a_paragraph_is_made_behind_one_door(app_sources: list[Any]) -> None:
    """An unescaped "a<b" raises in reportlab's Paragraph and the ticket does not print."""
    makers = {place.partition(":")[0] for place in places(app_sources, {"Paragraph", "XPreformatted"})}
    assert len(makers) <= 1
    assert all(maker.startswith("app/papers/") for maker in makers)


def test_colours_stand_in_the_palette_and_nowhere_else_on_screen(app_sources: list[Any]) -> None:
    found = []
    for source in app_sources:
        if source.name.startswith("app/screens/") and source.name != "app/screens/kit/palette.py":
            for node in source.walk():
                if isinstance(node, ast.Constant) and isinstance(node.value, str):
                    if re.search(r"#(?:[0-9a-fA-F]{3}){1,2}(?:[0-9a-fA-F]{2})?\b", node.value):
                        found.append(f"{source.name}:{node.lineno} {node.value!r}")
    assert found == []


def test_only_the_book_ends_a_transaction(app_sources: list[Any]) -> None:
    """Below the screens every such call counts. A screen may begin other things (a form, a drawing), so there
    it counts when it is asked of the book or of anything that speaks SQL."""
    below = [s for s in app_sources if not s.name.startswith(("app/book/", "app/screens/"))]
    assert places(below, {"commit", "rollback", "begin", "begin_nested"}) == []
    asked = re.compile(r"(book|session|engine|connection|change)\w*(\(.*\))?\.(commit|rollback|begin\w*)$")
    found = []
    for source in app_sources:
        if source.name.startswith("app/screens/"):
            for node in source.walk():
                if isinstance(node, ast.Call) and asked.search(told := ast.unparse(node.func)):
                    found.append(f"{source.name}:{node.lineno} {told}")
    assert found == []


def test_work_asks_in_sql_and_changes_through_the_door(app_sources: list[Any]) -> None:
    writing = {f"sqlalchemy.{word}" for word in ("insert", "update", "delete", "text")}
    writing |= {f"sqlalchemy.orm.{word}" for word in ("Session", "sessionmaker")} - {"sqlalchemy.orm.Session"}
    found = []
    for source in app_sources:
        if source.name.startswith("app/work/"):
            found += [f"{source.name}:{line} {name}" for line, name in source.imports() if name in writing]
    assert found == []


def test_one_clock(app_sources: list[Any]) -> None:
    """The present instant comes from the Clock that the book was opened with."""
    found = []
    for source in app_sources:
        for node in source.walk():
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                told = ast.unparse(node.func)
                if re.fullmatch(r"(.*\.)?(datetime\.(now|utcnow|today)|date\.today|time\.time)", told):
                    found.append(source.name)
    assert set(found) <= {"app/book/door.py"}


def test_heavy_parts_wait_until_they_are_needed(app_sources: list[Any]) -> None:
    found = []
    for source in app_sources:
        if not source.name.startswith("app/papers/"):
            for line, name in source.imports(only_at_start=True):
                if name.partition(".")[0] in HEAVY:
                    found.append(f"{source.name}:{line} {name}")
    assert found == []


def test_every_screen_can_be_imported_without_a_heavy_part(root: Path, app_sources: list[Any]) -> None:
    """The start pays for what it imports: numpy alone is 56 ms (DESIGN.md section 5)."""
    screens = [s.name for s in app_sources if s.name.startswith(("app/screens/", "app/start"))]
    modules = [name.removesuffix(".py").removesuffix("/__init__").replace("/", ".") for name in screens]
    asked = (
        f"import sys, importlib\nfor name in {modules!r}: importlib.import_module(name)\n"
        f"print(sorted({HEAVY!r} & set(sys.modules)))"
    )
    ended = subprocess.run(
        [sys.executable, "-c", asked], capture_output=True, text=True, check=False, cwd=root
    )
    assert (ended.stdout.strip(), ended.stderr) == ("[]", "")


def test_nothing_is_swallowed(app_sources: list[Any]) -> None:
    """Who catches everything may tidy up, and then lets it go on."""
    found = []
    for source in app_sources:
        for node in source.walk():
            if isinstance(node, ast.ExceptHandler):
                everything = node.type is None or ast.unparse(node.type) == "BaseException"
                if everything and ast.unparse(node.body[-1]) != "raise":
                    found.append(f"{source.name}:{node.lineno}")
    assert found == []
