import random
import zlib

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from faultdoc.record.handover import codes
from faultdoc.record.handover.codes import CodeError, TooLongError, in_codes, out_of_codes
from faultdoc.record.handover.letters import LETTERS, LettersError, spelt, unspelt

RFC_9285 = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"


@pytest.mark.parametrize(
    ("data", "text"),
    [(b"AB", "BB8"), (b"Hello!!", "%69 VD92EX0"), (b"base-45", "UJCLQE7W581"), (b"ietf!", "QED8WEX0")],
)
def test_the_arithmetic_is_that_of_base45(data, text):
    """RFC 9285, 4.3 and 4.4: its encoding and decoding examples, with its alphabet of table 1."""
    assert spelt(data, RFC_9285) == text
    assert unspelt(text, RFC_9285) == data


def test_the_alphabet_is_that_of_a_qr_code_without_what_messages_spoil():
    assert set(RFC_9285) - set(LETTERS) == set(" %*:")
    assert len(set(LETTERS)) == 41
    assert 41**3 > 256**2


@given(st.binary(max_size=50))
def test_letters_are_read_back(data):
    assert unspelt(spelt(data)) == data


@pytest.mark.parametrize("text", ["A", "ABCD", "//", "///", "A b"])
def test_letters_that_stand_for_nothing_are_refused(text):
    """RFC 9285, 6: what is not in the alphabet, is cut off or is too large is refused."""
    with pytest.raises(LettersError):
        unspelt(text)


@given(st.binary(max_size=3000))
@example(b"")
def test_codes_are_read_back_in_any_order(data):
    found = in_codes(data, easy=900)
    assert all(len(code) <= 900 for code in found)
    mixed = list(found) * 2
    random.Random(len(data)).shuffle(mixed)
    assert out_of_codes(" then\n".join(mixed)) == data


def noise(size: int) -> bytes:
    return random.Random(1).randbytes(size)


def test_as_few_codes_as_are_read_with_ease_then_as_few_as_there_must_be():
    assert [len(in_codes(noise(size))) for size in (900, 1000, 3000, 3700)] == [1, 2, 4, 4]
    assert max(len(code) for code in in_codes(noise(3700))) <= codes.EASY
    assert [len(in_codes(noise(size))) for size in (4000, 8000)] == [2, 4]
    assert max(len(code) for code in in_codes(noise(8900))) <= codes.MOST


def test_what_four_codes_do_not_hold_is_for_a_file():
    with pytest.raises(TooLongError, match="Send it as a file"):
        in_codes(noise(9100))


def test_what_messages_put_around_a_code_does_no_harm():
    code = in_codes(b"a case")[0]
    wrapped = "\n> ".join(code[place : place + 20] for place in range(0, len(code), 20)).replace("> ", "")
    assert out_of_codes(f"Here it is:\n\n  {wrapped}\n\nSent from a telephone: yes") == b"a case"
    assert out_of_codes(code.lower()) == b"a case"


def test_one_character_changed_is_refused():
    code = in_codes(b"a short case")[0]
    tried = 0
    for place, right in enumerate(code):
        for wrong in (RFC_9285 + "_").replace(right, ""):
            changed = code[:place] + wrong + code[place + 1 :]
            tried += 1
            with pytest.raises(CodeError):
                out_of_codes(changed)
    assert tried > 2000


def test_characters_lost_doubled_or_swapped_are_refused():
    code = in_codes(b"a short case")[0]
    for place in range(len(code) - 1):
        damaged = [code[:place] + code[place + 1 :]]
        if code[place] != code[place + 1]:
            damaged.append(code[:place] + code[place + 1] + code[place] + code[place + 2 :])
        if place not in (0, len(code) - 1):  # one more in front of it belongs to no code
            damaged.append(code[:place] + code[place] + code[place:])
        for one in damaged:
            with pytest.raises(CodeError):
                out_of_codes(one)


def test_what_is_missing_is_told():
    found = in_codes(noise(3000))
    with pytest.raises(CodeError, match="Of 4 codes, number 2 and 4 is missing"):
        out_of_codes(found[0] + found[2])
    with pytest.raises(CodeError, match="cut off"):
        out_of_codes(found[0][:-5])
    with pytest.raises(CodeError, match="different cases"):
        out_of_codes(in_codes(b"one")[0] + in_codes(b"two")[0])
    with pytest.raises(CodeError, match="no code"):
        out_of_codes("good day")


def test_a_code_that_claims_too_much_is_not_inflated(monkeypatch):
    monkeypatch.setattr(codes, "LARGEST", 1000)
    with pytest.raises(CodeError, match="more than 1,000 bytes"):
        out_of_codes(in_codes(b"0" * 1001)[0])
    assert out_of_codes(in_codes(b"0" * 1000)[0]) == b"0" * 1000


def test_what_cannot_be_inflated_is_refused():
    body = bytes([0]) + b"abcd" + b"\xff\xff\xff"
    with pytest.raises(CodeError, match="cannot be unpacked"):
        out_of_codes(codes.MARK + spelt(body + zlib.crc32(body).to_bytes(4, "big")) + ":")


def test_a_part_of_another_case_with_a_digest_alike_is_refused():
    one, other = in_codes(noise(1500)), in_codes(noise(1500)[::-1])
    body = unspelt(other[1].removeprefix(codes.MARK).removesuffix(":"))
    digest = unspelt(one[0].removeprefix(codes.MARK).removesuffix(":"))[1:5]
    forged = body[:1] + digest + body[5:-4]
    code = codes.MARK + spelt(forged + zlib.crc32(forged).to_bytes(4, "big")) + ":"
    with pytest.raises(CodeError):
        out_of_codes(one[0] + code)
