import pytest
from pypdf import PdfReader
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QPrinter

from faultdoc.record import moves
from faultdoc.record.casebook import Contact


@pytest.fixture
def page(driver):
    driver.begin()
    driver.desk.do("A note", moves.note(driver.desk.case, "It hummed."))
    driver.settle()
    book, id = driver.desk.book(), driver.desk.case_id
    book.set_contacts(id, [Contact(role="technician", name="Lee Tech", phone="555 0102")])
    driver.window.show_report()
    driver.settle()
    return driver.window._pages["report"]


@pytest.fixture
def press(driver):
    def do(control):
        control.click()
        driver.settle()

    return do


def test_names_only_where_they_are_wanted(page, press):
    assert "Lee Tech" not in page.html
    press(page.names)
    assert "Lee Tech, 555 0102" in page.html
    press(page.names)
    assert "Lee Tech" not in page.html


def test_customer_page_only(page, press):
    assert "Details" in page.html
    press(page.customer)
    assert "In plain words" in page.html
    assert "Details" not in page.html
    assert not page.photos.isEnabled()
    press(page.names)
    assert "Lee Tech" in page.html
    press(page.customer)
    assert "Details" in page.html
    assert page.photos.isEnabled()


def test_photos_of_the_case(driver, page, press):
    from PySide6.QtCore import QBuffer, QIODevice
    from PySide6.QtGui import QImage

    image = QImage(90, 60, QImage.Format.Format_RGB32)
    image.fill(0x336699)
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")
    driver.desk.book().attach(driver.desk.case_id, "basket.png", bytes(buffer.data().data()))
    press(page.photos)
    assert 'alt="basket.png"' in page.html
    assert "\ufffc" in page.view.document().toPlainText()


def test_case_without_a_case_book_has_neither(driver, page):
    driver.desk.case_id = None
    page.names.setChecked(True)
    page.fill()
    driver.settle()
    assert not page.names.isEnabled()
    assert not page.names.isChecked()
    assert not page.photos.isEnabled()
    assert "Signatures" in page.html


@pytest.mark.parametrize("size", [QPageSize.PageSizeId.A4, QPageSize.PageSizeId.Letter])
def test_printed_as_it_is_saved(driver, page, tmp_path, size):
    """On a printer that is a file: the same pages as the PDF."""
    from faultdoc.app.pdf import html_to_pdf
    from faultdoc.app.printer import print_on

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    printer.setPageSize(QPageSize(size))
    assert print_on(page.html, printer, driver.desk, "The report")
    html_to_pdf(page.html, tmp_path / "saved.pdf", paper="A4" if size is QPageSize.PageSizeId.A4 else "Letter")
    printed, saved = (PdfReader(tmp_path / f"{name}.pdf").pages for name in ("printed", "saved"))
    assert len(printed) == len(saved)
    assert [page.extract_text().split() for page in printed] == [page.extract_text().split() for page in saved]
    assert ("good", f"The report went to the printer: {len(saved)} pages.") in driver.told


def test_a_printer_that_fails_is_told(driver, page, tmp_path):
    from faultdoc.app.printer import print_on

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "no" / "folder" / "printed.pdf"))
    assert not print_on(page.html, printer, driver.desk, "The report")
    assert driver.told[-1][0] == "bad"
    assert "Save it as PDF" in driver.told[-1][1]


def test_saved_by_the_button(driver, page, tmp_path, monkeypatch):
    from PySide6.QtWidgets import QFileDialog

    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "out"), ""))
    page.pdf.click()
    page.web.click()
    assert (tmp_path / "out.pdf").read_bytes().startswith(b"%PDF-")
    assert (tmp_path / "out.html").read_text(encoding="utf-8") == page.html


def test_while_it_is_made_nothing_can_be_saved_and_only_the_last_one_wanted_shows(driver, page):
    page.names.click()
    assert not page.pdf.isEnabled()
    assert not page.print.isEnabled()
    page.customer.click()
    driver.settle()
    assert page.pdf.isEnabled()
    assert "In plain words" in page.html
    assert "Lee Tech" in page.html


def test_a_report_that_cannot_be_made_is_told(driver, page, monkeypatch):
    monkeypatch.setattr("faultdoc.record.printing.full_report", lambda *_, **__: 1 / 0)
    page.fill()
    driver.settle()
    assert driver.told[-1][0] == "bad"
    assert "The report could not be made." in driver.told[-1][1]
    assert not page.pdf.isEnabled()
