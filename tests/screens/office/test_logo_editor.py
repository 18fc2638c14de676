"""The logo: chosen from a file, shown as papers print it, taken away again."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QFileDialog

from app.screens.kit.measure import set_text_size
from app.trade.settings import LOGO
from app.work.office.settings import change_settings, shop_settings


@pytest.fixture
def page(office):
    """The shop's settings."""
    return office.open("settings")


@pytest.fixture
def picture(tmp_path):
    """A wide red picture."""
    image = QImage(40, 10, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.red)
    path = tmp_path / "logo.png"
    assert image.save(str(path))
    return path


def chooses(monkeypatch, *names):
    answers = iter(names)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(next(answers)), ""))


def test_a_picture_is_chosen_shown_and_saved(office, page, picture, monkeypatch):
    logo = page.editors[LOGO]
    assert logo.picture.image.isNull()
    assert logo.picture.accessibleName() == "No logo"
    assert not logo.remove.isVisible()
    chooses(monkeypatch, "", picture)
    office.push(logo.choose)
    assert logo.value() == ""  # the dialog was left
    office.push(logo.choose)
    assert logo.picture.image.width() == 40
    shot = logo.picture.grab().toImage()
    assert shot.pixelColor(shot.width() // 2, shot.height() // 5).red() > 200
    assert shop_settings(office.book)[LOGO] == ""  # not before it is saved
    office.press("Ctrl+Return")
    assert shop_settings(office.book)[LOGO] == logo.value()
    office.push(logo.remove)
    assert logo.picture.image.isNull()
    office.press("Ctrl+Return")
    assert shop_settings(office.book)[LOGO] == ""


def test_a_file_that_is_no_picture_is_refused_below_it(office, page, tmp_path):
    logo = page.editors[LOGO]
    bad = tmp_path / "logo.png"
    bad.write_bytes(b"not a picture")
    logo.take(bad)
    office.settle()
    assert logo.error() == "logo.png is no picture that papers can print. Choose a PNG or JPEG file."
    assert logo.value() == ""


def test_a_picture_that_is_gone_is_told(office, page, picture):
    logo = page.editors[LOGO]
    logo.take(picture)
    office.settle()
    sha256 = logo.value()
    for path in office.book.files.rglob("*"):
        if path.is_file():
            path.chmod(0o600)
            path.unlink()
    logo.put_draft(sha256)
    office.settle()
    assert logo.error()
    assert logo.draft() == sha256


def test_what_nobody_foresaw_is_handed_on(office, page):
    seen = []
    office.desk.doors.unhandled.disconnect()
    office.desk.doors.unhandled.connect(seen.append)
    error = KeyError("x")
    page.editors[LOGO]._failed(error)
    assert seen == [error]


def test_the_others_see_it_and_cannot_change_it(office, picture):
    page = office.open("settings")
    page.editors[LOGO].take(picture)
    office.settle()
    change_settings(office.book, office.shop.ine, {LOGO: page.editors[LOGO].value()})
    office.works("mirr")
    office.settle()
    logo = page.editors[LOGO]
    assert not logo.choose.isVisible()
    assert not logo.remove.isVisible()


def test_it_follows_the_text_size(office, page, qapp):
    logo = page.editors[LOGO]
    before = logo.picture.sizeHint()
    set_text_size(qapp, 150)
    assert logo.picture.sizeHint().width() > before.width()
