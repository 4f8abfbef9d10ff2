"""Cases that are in several books, and what is kept beside the journal."""

from dataclasses import replace

import pytest
from pydantic import ValidationError

from faultdoc.record.casebook import CaseBookError, Contact, attachments


def test_a_case_is_known_by_its_uid(book, start):
    uid = "0123456789abcdef" * 2
    id = book.start(start, uid=uid)
    assert (book.uid(id), book.by_uid(uid), book.by_uid("0" * 32)) == (uid, id, None)
    assert book.uid(book.start(start)) != uid
    with pytest.raises(CaseBookError, match=f"already, as number {id}"):
        book.start(start, uid=uid)
    with pytest.raises(ValueError, match="32 hex digits"):
        book.start(start, uid="Hotel")


def test_many_entries_are_added_together_or_not_at_all(book, start, noted):
    id = book.start(start)
    book.add_all(id, [noted("one"), noted("two")])
    book.add_all(id, [])
    book.add_all(id, [noted("three")])
    assert book.load(id)[1] == [noted("one"), noted("two"), noted("three")]
    assert book.journal(id).last == 3
    broken = replace(noted("five"), move=None)
    with pytest.raises(Exception, match=r"NOT NULL|null value"):
        book.add_all(id, [noted("four"), broken])
    assert len(book.load(id)[1]) == 3


def test_what_could_not_be_read_back_is_refused_before_it_is_kept(book, start, noted):
    id = book.start(start)
    journal = book.journal(id)
    with pytest.raises(CaseBookError, match=r"cannot be kept with this: notes\.0"):
        journal.append(noted("  "))
    with pytest.raises(CaseBookError, match="cannot be kept with this: symptoms"):
        book.start(start.model_copy(update={"symptoms": ()}))
    journal.append(noted("one"))
    assert len(book.load(id)[1]) == 1
    assert len(book.cases()) == 1


def test_an_entry_whose_acknowledgement_was_lost_may_be_given_again(book, start, noted):
    id = book.start(start)
    mine = book.journal(id)
    book.add(id, 1, noted("one"))  # kept, but the journal was not told
    mine.append(replace(noted("one"), at=None))
    mine.append(noted("two"))
    assert [entry.what for entry in book.load(id)[1]] == ["Note: one", "Note: two"]


def test_a_conflict_tells_the_station(book, start, noted):
    id = book.start(start)
    late = book.journal(id)
    book.journal(id).append(noted("one", by="desk-7a"))
    with pytest.raises(CaseBookError, match=r"being worked on elsewhere too.*last at desk-7a.*not taken"):
        late.append(noted("other"))
    assert len(book.load(id)[1]) == 1


def test_contacts_are_kept_in_order_and_replaced(book, start):
    id, other = book.start(start), book.start(start)
    people = [Contact(role="caller", name="Ada Marlow", phone="555 0100"), Contact(role="site", phone="555 0101")]
    book.set_contacts(id, people)
    assert book.contacts(id) == tuple(people)
    assert book.contacts(other) == ()
    book.set_contacts(id, people[1:])
    assert book.contacts(id) == tuple(people[1:])


def test_a_contact_is_someone():
    with pytest.raises(ValidationError, match="a name or a telephone number"):
        Contact(role="caller", note="rang")


PNG = b"\x89PNG\r\n\x1a\n"
PDF = b"%PDF-1.7\n"


@pytest.mark.parametrize(
    ("data", "found"),
    [
        (PNG + b"1", "image/png"),
        (b"\xff\xd8\xff\xe0 1", "image/jpeg"),
        (b"RIFF\x10\0\0\0WEBPVP8 ", "image/webp"),
        (PDF, "application/pdf"),
    ],
)
def test_an_attachment_is_what_its_content_says(book, start, data, found):
    id = book.start(start)
    kept = book.attach(id, "C:\\photos\\plate.exe", data)
    assert (kept.name, kept.media_type, kept.size) == ("plate.exe", found, len(data))
    assert book.attachments(id) == (kept,)
    assert book.content(kept.id) == data
    assert book.attach(id, "again.png", data) == kept


@pytest.mark.parametrize("data", [b"", b"MZ", b"RIFF\x10\0\0\0WAVE", b"<svg/>", b"\xff\xd8"])
def test_other_content_is_refused(book, start, data):
    id = book.start(start)
    with pytest.raises(CaseBookError, match=r"plate\.png is (empty|neither)"):
        book.attach(id, "plate.png", data)
    assert book.attachments(id) == ()


def test_what_is_too_large_is_refused_in_words(book, start, monkeypatch):
    monkeypatch.setattr(attachments, "LARGEST", 2 * 1024 * 1024)
    monkeypatch.setattr(attachments, "MOST", 3 * 1024 * 1024)
    id = book.start(start)
    with pytest.raises(CaseBookError, match=r"big\.png has 2 MB, more than the 2 MB"):
        book.attach(id, "big.png", PNG + bytes(2 * 1024 * 1024))
    book.attach(id, "one.png", PNG + bytes(1024 * 1024))
    book.attach(id, "two.png", PNG + b"2" + bytes(1024 * 1024))
    with pytest.raises(CaseBookError, match="the 3 MB that one case may have"):
        book.attach(id, "three.png", PNG + b"3" + bytes(1024 * 1024))
    assert [one.name for one in book.attachments(id)] == ["one.png", "two.png"]
    assert book.attach(book.start(start), "three.png", PNG + b"3").size == 9


@pytest.mark.parametrize("use", ["uid", "contacts", "attachments", "content"])
def test_what_is_not_there(book, use):
    with pytest.raises(KeyError, match=r"no (case|attachment) 7"):
        getattr(book, use)(7)


def test_nothing_is_attached_to_no_case(book):
    with pytest.raises(KeyError, match="no case 7"):
        book.attach(7, "plate.png", PNG)
    with pytest.raises(KeyError, match="no case 7"):
        book.set_contacts(7, [])
