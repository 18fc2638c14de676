"""``figures``: the same numbers without a window."""

from __future__ import annotations

import csv
import io
import json

import pytest

from app.commands.main import main
from app.trade.statistics.questions import QUESTIONS
from app.work.shop_book import close_book, open_shop
from tests.commands.conftest import NOW
from tests.work.past import Past


@pytest.fixture
def written(path):
    """Twelve arms of which three came back, written into the closed book."""

    class Shop:
        book = open_shop(path, clock=lambda: NOW)
        ine = 1

    past = Past(Shop)
    with past.at_once():
        for at in range(12):
            unit = past.unit()
            past.job(unit, 410, 400)
            if at < 3:
                past.job(unit, 350, 340, outcome="declined")
    close_book(Shop.book)


def test_the_names_are_listed_one_a_line(obey, capsys):
    assert obey("figures", "--list") == 0
    assert capsys.readouterr().out.splitlines() == list(QUESTIONS)


def test_without_a_question_it_says_how_to_ask(obey, capsys):
    assert obey("figures") == 2
    assert "--list" in capsys.readouterr().out


@pytest.mark.parametrize("name", list(QUESTIONS))
def test_each_question_answers_as_text_json_and_csv_and_has_its_own_help(written, obey, capsys, name):
    assert obey("figures", name) == 0
    assert len(capsys.readouterr().out.splitlines()) > 3
    assert obey("figures", name, "--json") == 0
    data = json.loads(capsys.readouterr().out)
    assert (data["figure"], data["question"]["window"]) == (name, 180)
    assert obey("figures", name, "--csv") == 0
    table = list(csv.reader(io.StringIO(capsys.readouterr().out.lstrip("\ufeff"))))
    assert len(table) == len(data["rows"]) + 1
    with pytest.raises(SystemExit) as ended:
        obey("figures", name, "--help")
    assert ended.value.code == 0
    assert "--fault-group" in capsys.readouterr().out


def test_filters_reach_the_question(written, obey, capsys):
    words = "--by maker --from 2024-01-01 --to 2026-01-01 --type X --arrangement sled --maker M --model N"
    words += " --fault-group light --change c --technician tobbe\u00a0ruskamp --modified no --window 30"
    words += " --follow transport --any-fault --json"
    asked = [word.replace("\u00a0", " ") for word in words.split(" ")]
    assert obey("figures", "comeback-rate", *asked) == 0
    data = json.loads(capsys.readouterr().out)
    question = data["question"]
    assert question.pop("technician") > 0
    assert question == {
        "by": "maker",
        "window": 30,
        "since": "2024-01-01",
        "until": "2026-01-01",
        "group": "light",
        "same_group": False,
        "transport_type": "X",
        "arrangement": "sled three-beam",
        "maker": "M",
        "model": "N",
        "change": "c",
        "modified": False,
        "followed": "the transport",
        "not_repaired": False,
        "declined": False,
    }
    assert data["headline"].startswith("No job fits")


def test_the_numbers_are_the_books(written, obey, capsys):
    obey("figures", "comeback-rate", "--json")
    (row,) = json.loads(capsys.readouterr().out)["rows"]
    assert (row["could"], row["came_back"], row["share"]) == (12, 3, 0.25)
    assert len(row["jobs"]) == 12


@pytest.mark.parametrize(
    "words",
    [
        ["--from", "12.3.2026"],
        ["--window", "0"],
        ["--window", "many"],
        ["--by", "moon"],
        ["--json", "--csv"],
    ],
)
def test_wrong_filters_are_wrong_usage(obey, capsys, words):
    with pytest.raises(SystemExit) as ended:
        obey("figures", "cost", *words)
    assert ended.value.code == 2
    assert capsys.readouterr().err


def test_of_an_empty_book_every_question_says_so_in_each_shape(obey, capsys):
    for name in QUESTIONS:
        assert obey("figures", name) == 0
        assert capsys.readouterr().out.startswith("No repair has been handed back yet."), name
        assert obey("figures", name, "--json", "--by", "technician") == 0
        data = json.loads(capsys.readouterr().out, parse_constant=pytest.fail)  # NaN and Infinity
        assert (data["headline"], data["rows"]) == ("No repair has been handed back yet.", []), name
        assert obey("figures", name, "--csv") == 0
        assert capsys.readouterr().out.strip("\ufeff\r\n") == "", name


@pytest.mark.parametrize("name", ["Nobody", ""])
def test_nobody_of_that_name_is_said(obey, capsys, name):
    assert obey("figures", "cost", "--technician", name) == 2
    assert "These are" in capsys.readouterr().err


def test_a_name_that_the_book_does_not_have_is_said_beside_the_answer(written, obey, capsys):
    assert obey("figures", "how-long", "--type", "VELK a1", "--json") == 0
    heard = capsys.readouterr()
    assert (json.loads(heard.out)["question"]["transport_type"], heard.err) == ("Velk A1", "")
    assert obey("figures", "how-long", "--type", "Moon", "--json") == 0
    heard = capsys.readouterr()
    assert json.loads(heard.out)["headline"].startswith("No job fits")
    assert heard.err.startswith("No transport type of the book is called Moon.\nThese are: ")
    assert "Velk A1" in heard.err


def test_a_period_that_ends_before_it_begins_is_wrong_usage(obey, capsys):
    assert obey("figures", "cost", "--from", "2026-02-01", "--to", "2026-01-31") == 2
    assert capsys.readouterr().err == "The first day comes after the last one.\n"


def numbers_of(text):
    """The rows of an answer, their jobs in order of key."""
    return [
        {**row, "jobs": sorted(row["jobs"])} if "jobs" in row else row for row in json.loads(text)["rows"]
    ]


@pytest.mark.parametrize(
    ("name", "idle"),
    [
        ("comeback-rate", ()),
        ("how-long", ()),
        ("keep-coming", ("--window", "--any-fault")),
        ("over-time", ("--by",)),
        ("what-fails", ("--window", "--follow", "--any-fault")),
        ("after-modification", ("--by",)),
        ("cost", ("--window", "--follow", "--any-fault")),
        ("shop", ("--by", "--window", "--follow", "--any-fault")),
    ],
)
def test_its_help_has_what_bears_on_the_question_and_of_the_rest_is_said_that_it_changes_nothing(
    written, obey, capsys, name, idle
):
    with pytest.raises(SystemExit):
        obey("figures", name, "--help")
    helped = capsys.readouterr().out
    obey("figures", name, "--json")
    plain = capsys.readouterr().out
    for option, *value in (
        ("--by", "maker"),
        ("--window", "30"),
        ("--follow", "transport"),
        ("--any-fault",),
    ):
        assert (option in helped) is (option not in idle), option
        assert obey("figures", name, option, *value, "--json") == 0
        heard = capsys.readouterr()
        said = f"{option} changes nothing in this answer.\n" if option in idle else ""
        assert heard.err == said
        if option in idle:
            assert numbers_of(heard.out) == numbers_of(plain)


def test_the_help_speaks_german(path, doors, capsys):
    with pytest.raises(SystemExit):
        main(["figures", "how-long", "--help"], doors, environment={"LANG": "de_DE.UTF-8"})
    helped = capsys.readouterr().out
    assert "--from TAG" in helped
    for word in ("--window TAGE", "--change KENNUNG", "--picture DATEI", "--book PFAD"):
        assert word in helped


@pytest.mark.parametrize(("ending", "begin"), [(".pdf", b"%PDF"), (".svg", b"<?xml"), (".png", b"\x89PNG")])
def test_the_picture_is_written_and_it_is_said_where(written, obey, capsys, tmp_path, ending, begin):
    file = tmp_path / f"back{ending}"
    assert obey("figures", "comeback-rate", "--picture", str(file)) == 0
    said = capsys.readouterr().out
    assert "There is no other group" in said or "can be told" in said
    assert str(file) in said
    assert file.read_bytes().startswith(begin)


def test_a_picture_says_of_which_jobs_it_is(written, obey, tmp_path):
    file = tmp_path / "back.svg"
    obey("figures", "comeback-rate", "--fault-group", "radial", "--picture", str(file))
    text = file.read_text(encoding="utf-8")
    assert "Fault group: radial" in text
    assert "3 of 12 came back within 180 days" in text


def test_no_picture_of_nothing_in_no_folder_and_of_no_other_kind(written, obey, capsys, tmp_path):
    nothing = tmp_path / "nothing.png"
    assert obey("figures", "cost", "--maker", "Nobody", "--picture", str(nothing)) == 1
    assert "There is nothing to draw." in capsys.readouterr().err
    assert not nothing.exists()
    assert obey("figures", "comeback-rate", "--picture", str(tmp_path / "nowhere" / "back.png")) == 1
    assert "could not be written" in capsys.readouterr().err
    with pytest.raises(SystemExit) as ended:
        obey("figures", "comeback-rate", "--picture", "back.bmp")
    assert ended.value.code == 2
    assert "back.bmp ends with none of .pdf, .svg, .png." in capsys.readouterr().err
