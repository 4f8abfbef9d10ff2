"""Files written whole or not at all."""

import os
import stat

import pytest

from faultdoc.library.whole import whole, write_whole


def test_an_error_leaves_the_old_file_and_no_draft(tmp_path):
    path = tmp_path / "case.yaml"
    write_whole("old\n", path)

    def half_way():
        with whole(path) as draft:
            draft.write_text("new", encoding="utf-8")
            raise ValueError("half way")

    with pytest.raises(ValueError, match="half way"):
        half_way()
    assert path.read_bytes() == b"old\n"
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.skipif(os.name == "nt", reason="no permission bits")
def test_a_file_may_be_read_like_any_other_made_here(tmp_path):
    path, other = tmp_path / "case.yaml", tmp_path / "other"
    write_whole("a\nb\n", path)
    other.touch()
    assert stat.S_IMODE(path.stat().st_mode) == stat.S_IMODE(other.stat().st_mode)
    assert path.read_bytes() == b"a\nb\n"
