from dataclasses import replace
from hashlib import sha256

import pytest
from hypothesis import given
from hypothesis import strategies as st
from journals import KINDS, NOON, journals, starts

from faultdoc.library.load import load_unit
from faultdoc.library.problems import FileProblems
from faultdoc.model.case import Case
from faultdoc.plain import plain
from faultdoc.record.handover import file as files
from faultdoc.record.handover.form import FORMAT, Attached, HandOver, PointWords, Sent, entries_of, lines_of
from faultdoc.record.handover.prints import Prints

UID = "0123456789abcdef" * 2


def hand_over(start: Case, entries=(), **more) -> HandOver:
    return HandOver(
        format=FORMAT,
        sent=Sent(at=NOON, by="desk-1", faultdoc="0"),
        uid=UID,
        start=start,
        journal=lines_of(start, entries),
        points={id: PointWords(kind=kind, title="A place") for id, kind in KINDS.items()},
        prints=Prints(trees={}, plant="", sheet=""),
        **more,
    )


def attached(content: bytes) -> Attached:
    import base64

    digest = sha256(content).hexdigest()
    data = base64.b64encode(content).decode()
    return Attached(name="nameplate.jpg", media_type="image/jpeg", size=len(content), sha256=digest, data=data)


cases = starts().flatmap(lambda start: st.tuples(st.just(start), journals(start)))


@given(cases)
def test_a_file_is_read_back_as_it_was_sent(case):
    start, entries = case
    sent = hand_over(start, entries)
    received = files.understand(files.hand_over_text(sent), "x")
    assert received.hand_over == sent
    assert received.as_sent
    assert entries_of(received.hand_over) == entries
    assert received.hand_over.case == (entries[-1].case if entries else start)


@given(cases)
def test_codes_are_read_back_as_they_were_sent(case):
    start, entries = case
    sent = hand_over(start, entries, belief={f"cause_{place}": 0.1 for place in range(8)})
    received = files.understand("\n\n".join(reversed(files.code_texts(sent, own_sheet=False))), "x").hand_over
    assert entries_of(received) == entries
    assert (received.start, received.uid, received.sent) == (start, sent.uid, sent.sent)
    assert received.belief == dict(list(sent.belief.items())[:5])


@given(st.binary(max_size=5000), st.text(min_size=1, max_size=40).map(plain))
def test_photos_travel_whole(content, name):
    photo = attached(content).model_copy(update={"name": name})
    sent = hand_over(START, attachments=(photo, attached(b"")))
    received = files.understand(files.hand_over_text(sent), "x").hand_over
    assert [files.content_of(one) for one in received.attachments] == [content, b""]
    assert received.attachments[0].name == name
    again = files.understand(files.hand_over_text(received), "x").hand_over
    assert [files.content_of(one) for one in again.attachments] == [content, b""]


START = Case.model_validate(
    {
        "unit": "bluff_30",
        "symptoms": ["flow_proving_trip"],
        "who": ["caller"],
        "state": {
            "supply": "energised",
            "panel": "closed",
            "pump": "stopped",
            "water": "pressurised",
            "compressors": "stopped",
            "oil": "warm",
        },
    }
)


def told(text: str) -> str:
    with pytest.raises(FileProblems) as refused:
        files.understand(text, "case.handover.yaml")
    return str(refused.value)


def test_the_data_sheet_travels():
    sheet = load_unit("bluff_30")
    received = files.understand(files.hand_over_text(hand_over(START, sheet=sheet)), "x").hand_over
    assert received.sheet == sheet


def test_a_file_that_was_edited_is_told_from_one_that_was_not(tmp_path):
    text = files.hand_over_text(hand_over(START))
    assert files.understand(text.replace("\n", "\r\n"), "x").as_sent
    assert not files.understand(text.replace("pump: stopped", "pump: running"), "x").as_sent
    assert not files.understand(text.rpartition("digest:")[0], "x").as_sent
    files.save_hand_over(hand_over(START), tmp_path / "x.yaml")
    assert files.read_hand_over(tmp_path / "x.yaml").as_sent


def test_a_photo_that_was_damaged_is_refused():
    text = files.hand_over_text(hand_over(START, attachments=(attached(b"picture" * 40),)))
    words = told(text.replace("cGljd", "cGljx", 1))
    assert "attachments[0].data" in words
    assert "another content than was attached" in words
    assert "no base64" in told(text.replace("cGljd", "c!ljd", 1))


def test_too_many_photos_are_refused(monkeypatch):
    monkeypatch.setattr(files, "MOST_ATTACHED", 10)
    assert "at most 10" in told(files.hand_over_text(hand_over(START, attachments=(attached(b"12345678901"),))))


def test_a_file_too_large_is_refused_unread(tmp_path, monkeypatch):
    monkeypatch.setattr(files, "LARGEST_FILE", 100)
    files.save_hand_over(hand_over(START), tmp_path / "x.yaml")
    with pytest.raises(FileProblems, match="more than 100 bytes"):
        files.read_hand_over(tmp_path / "x.yaml")


def test_mistakes_are_told_with_line_and_remedy():
    sent = hand_over(START.model_copy(update={"readings": {"power_indication": "lit"}}))
    text = files.hand_over_text(sent)
    assert "this is another kind of file" in told("unit: bluff_30\nsymptoms: [flow_proving_trip]\n")
    assert "up to date" in told(text.replace("hand-over 1", "hand-over 2"))
    words = told(text.replace("power_indication: lit", "barrel_in_pressure: 34 gpm"))
    assert "start.readings.barrel_in_pressure" in words
    assert "case.handover.yaml:" in words
    assert "the point 'no_such'" in told(text.replace("  power_indication: lit", "  no_such: lit"))
    assert "uid" in told(text.replace(UID, "../../etc/passwd"))
    assert "alias" in told(text + "more: *x\n")


def test_a_time_without_its_zone_is_refused():
    text = files.hand_over_text(hand_over(START))
    assert "time zone" in told(text.replace("2026-07-01T12:00:00Z", "2026-07-01T12:00:00"))


def test_moves_of_old_without_time_and_station_travel_too():
    from faultdoc.record import moves
    from faultdoc.record.session import Entry

    entry = Entry("do", "Note", moves.note(START, "hums"))
    assert entries_of(files.understand(files.hand_over_text(hand_over(START, (entry,))), "x").hand_over) == (
        entry,
    )
    assert replace(entry, by="x") != entry
