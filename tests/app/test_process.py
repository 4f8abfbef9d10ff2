"""The real window process: it starts light, tells when it is ready, and loses nothing when it is killed."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PATIENCE = 60

DRIVE = """
import json, sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from faultdoc.app import main
from faultdoc.app.window import Window

app = QApplication([])


def dump(desk, path):
    session = desk.session
    state = {
        "case": session.case.model_dump(mode="json"),
        "done": [[what, case.model_dump(mode="json")] for what, case in session.done],
        "undone": [[what, case.model_dump(mode="json")] for what, case in session.undone],
        "step": [desk.step.kind, desk.step.id, desk.step.text],
        "belief": list(map(float, desk.assessment.belief.marginal)),
    }
    with open(path + ".new", "w", encoding="utf-8") as stream:
        json.dump(state, stream)
    import os
    os.replace(path + ".new", path)


def run(script):
    waiting = [script, None]

    def tick():
        windows = [one for one in app.topLevelWidgets() if isinstance(one, Window)]
        if not windows:
            return
        if waiting[1] is None:
            waiting[0] = script(windows[0], windows[0].desk)
            waiting[1] = lambda: True
        try:
            if waiting[1]():
                waiting[1] = next(waiting[0])
        except StopIteration:
            timer.stop()

    timer = QTimer()
    timer.timeout.connect(tick)
    timer.start(20)
    sys.exit(main([]))


def idle(desk, more=lambda: True):
    return lambda: desk.background.idle and not desk.looking and more()
"""

WORK = (
    DRIVE
    + """
def script(window, desk):
    yield lambda: window.start.units
    window.start.units["bluff_30"].click()
    for id, card in window.start.symptoms.items():
        card.setChecked(id == "flow_proving_trip")
    window.start.title.setText("Killed")
    window.start.next.click()
    window._pages["plant"].go.click()
    yield idle(desk, lambda: desk.session is not None)
    answered = 0
    while answered < 3:
        page = window.work.step
        if page.acknowledge is not None:
            page.acknowledge.tick.click()
        before = desk.case
        if desk.step.kind == "question":
            answered += 1
            page.view.choices[0]() if page.view.choices else page.view.could_not.click()
        else:
            page.view.done.click()
        yield idle(desk, lambda: desk.case is not before)
    desk.undo()
    yield idle(desk)
    dump(desk, sys.argv[1])


run(script)
"""
)

GO_ON = (
    DRIVE
    + """
def script(window, desk):
    yield lambda: window.start.unfinished
    window.start.unfinished[0].click()
    yield idle(desk, lambda: desk.session is not None)
    dump(desk, sys.argv[1])
    desk.undo()
    yield idle(desk)
    dump(desk, sys.argv[2])
    window.close()


run(script)
"""
)


def environment(home, **more):
    return {
        **os.environ,
        "FAULTDOC_HOME": str(home),
        "QT_QPA_PLATFORM": "offscreen",
        "PYTHONPATH": os.pathsep.join(filter(None, [str(ROOT), os.environ.get("PYTHONPATH")])),
        **more,
    }


def wait_for(path, process):
    end = time.monotonic() + PATIENCE
    while not path.exists() or not path.stat().st_size:
        assert process.poll() is None, process.communicate()
        assert time.monotonic() < end, f"{path.name} was never written"
        time.sleep(0.05)


def start(code, home, *arguments):
    command = [sys.executable, "-c", code, *map(str, arguments)]
    return subprocess.Popen(
        command, env=environment(home), stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="the system has no kill -9")
def test_killed_window_goes_on_exactly_where_it_was(tmp_path):
    home, first, again, undone = tmp_path / "home", *(tmp_path / f"{name}.json" for name in ("a", "b", "c"))
    process = start(WORK, home, first)
    wait_for(first, process)
    os.kill(process.pid, signal.SIGKILL)
    assert process.wait() == -signal.SIGKILL
    process.communicate()
    process = start(GO_ON, home, again, undone)
    said = process.communicate(timeout=PATIENCE)
    assert process.returncode == 0, said
    before, after = (json.loads(path.read_text(encoding="utf-8")) for path in (first, again))
    assert len(before["done"]) >= 2
    assert len(before["undone"]) == 1
    belief = after.pop("belief")
    assert belief == pytest.approx(before.pop("belief"), abs=1e-12)
    assert after == before
    one_back = json.loads(undone.read_text(encoding="utf-8"))
    assert one_back["case"] == before["done"][-1][1]


TYPE = (
    DRIVE
    + """
def script(window, desk):
    yield lambda: window.start.units
    window.start.units["bluff_30"].click()
    for id, card in window.start.symptoms.items():
        card.setChecked(id == "flow_proving_trip")
    window.start.call.click()
    window._pages["plant"].go.click()
    yield idle(desk, lambda: desk.session is not None and "phone" in window._pages)
    from PySide6.QtTest import QTest
    notes = window._pages["phone"].notes
    yield idle(desk, lambda: notes._uid is not None)
    QTest.keyClicks(notes.field, "The gate is locked after six")
    yield lambda: notes.state.text() == "Kept."
    with open(sys.argv[1], "w", encoding="utf-8") as stream:
        stream.write("typed")


run(script)
"""
)

READ_ON = (
    DRIVE
    + """
def script(window, desk):
    yield lambda: window.start.unfinished
    window.start.unfinished[0].click()
    yield idle(desk, lambda: desk.session is not None and "phone" in window._pages)
    notes = window._pages["phone"].notes
    yield idle(desk, lambda: notes._uid is not None)
    with open(sys.argv[1], "w", encoding="utf-8") as stream:
        stream.write(window.page + ": " + notes.field.toPlainText())
    window.close()


run(script)
"""
)


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="the system has no kill -9")
def test_notes_of_a_call_outlive_a_killed_window(tmp_path):
    home, first, again = tmp_path / "home", tmp_path / "a.txt", tmp_path / "b.txt"
    process = start(TYPE, home, first)
    wait_for(first, process)
    os.kill(process.pid, signal.SIGKILL)
    assert process.wait() == -signal.SIGKILL
    process.communicate()
    process = start(READ_ON, home, again)
    said = process.communicate(timeout=PATIENCE)
    assert process.returncode == 0, said
    assert again.read_text(encoding="utf-8") == "phone: The gate is locked after six"


LIGHT = """
import sys
from faultdoc.app import ready
tell = ready.tell_ready
def told():
    tell()
    names = {name.partition(".")[0] for name in sys.modules}
    slow = {"scipy", "CoolProp", "pyqtgraph", "sqlalchemy", "fluids", "networkx", "numpy"}
    print(sorted(names & slow), flush=True)
    import os
    os._exit(0)
ready.tell_ready = told
from faultdoc.app import main
main([])
"""


@pytest.mark.slow
def test_start_imports_nothing_slow_and_tells_when_ready(tmp_path):
    ready = tmp_path / "ready.txt"
    # The units package brings numpy and the top of scipy, and a first start reads the library with it;
    # a later one shows the list that the first remembered.
    for allowed in (["numpy", "scipy"], []):
        ready.unlink(missing_ok=True)
        begun = time.time()
        said = subprocess.run(
            [sys.executable, "-c", LIGHT], env=environment(tmp_path, FAULTDOC_READY_FILE=str(ready)),
            capture_output=True, text=True, timeout=PATIENCE, check=True,
        )  # fmt: skip
        assert said.stdout.strip() == str(allowed), said
        word, stamp = ready.read_text(encoding="utf-8").split()
        assert word == "ready"
        assert begun <= float(stamp) <= time.time()


@pytest.mark.slow
def test_broken_library_shows_a_page_and_no_crash(tmp_path):
    code = (
        DRIVE
        + """
import shutil
from pathlib import Path
from faultdoc.library import places
own = places.data_folder()
copy = Path(sys.argv[2])
shutil.copytree(own / "resources", copy / "resources")
shutil.copytree(own / "trees", copy / "trees")
(copy / "trees" / "broken.yaml").write_text("id: broken\\ntitle: 5\\nsymptom: [a, b]\\n", encoding="utf-8")
places.data_folder = lambda: copy


def script(window, desk):
    yield lambda: window.page == "broken"
    from PySide6.QtWidgets import QLabel
    texts = [one.text() for one in window._pages["broken"].findChildren(QLabel)]
    Path(sys.argv[1]).write_text("\\n".join(texts), encoding="utf-8")
    window.close()


run(script)
"""
    )
    seen = tmp_path / "seen.txt"
    process = start(code, tmp_path / "home", seen, tmp_path / "copy")
    said = process.communicate(timeout=PATIENCE)
    assert process.returncode == 0, said
    words = seen.read_text(encoding="utf-8")
    assert "broken.yaml, line 3" in words
    assert "Do this" in words
