"""The page 'What to send'."""

import pytest

from faultdoc.model.safety import Qualification


@pytest.fixture
def page(shipped):
    shipped.begin(who=(Qualification.CALLER,), symptom="flow_proving_trip")
    shipped.window.show_kit()
    made = shipped.window._pages["kit"]
    shipped.settle(lambda: made.kit is not None and made.cards)
    return made


def test_the_best_kit_is_shown(shipped, page):
    assert page.taken == page.kit.taken
    assert "Fix on the first visit:" in page.chance.text()
    words = shipped.texts(page)
    for part in ("Who goes", "Next best to add", "Not served by this visit", "See that these are on the van"):
        assert part in words


def test_taking_something_out_changes_the_chance_at_once(shipped, page):
    before = page.kit.chance
    id = page.kit.articles[0].id
    without = page.kit.without[id]
    page.cards[id].click()
    assert id not in page.kit.taken  # before anything beside the window has run
    assert page.kit.chance == pytest.approx(without)
    assert without < before
    shipped.calm()
    assert "instead of" not in page.cards[id].accessibleDescription()
    page.cards[id].click()
    assert page.kit.chance == pytest.approx(before)
    shipped.calm()


def test_what_breaks_a_limit_is_told(shipped, page):
    for id, card in page.cards.items():
        if id not in page.kit.taken:
            card.click()
    shipped.calm()
    assert page.kit.over
    assert page.over.isVisible()
    assert "number of people" in page.over.text()
    page.best.click()
    shipped.calm()
    assert not page.over.isVisible()


def test_fewer_items_may_go(shipped, page):
    most = page.kit.sending.limits.items
    page.items.less.click()
    shipped.settle(lambda: page.kit.sending.limits.items == most - 2)
    assert page.kit.cost.items <= most - 2
    assert page.items.value.text() == str(most - 2)


def test_it_is_kept_on_paper(shipped, page, tmp_path):
    for ending in ("pdf", "html"):
        path = tmp_path / f"kit.{ending}"
        assert page.keep(path)
        assert path.stat().st_size > 1000
    assert shipped.told[-1][0] == "good"


def test_it_is_reached_from_the_hand_over_and_the_close_page(driver):
    driver.begin(who=(Qualification.CALLER,))
    driver.window.show_close(None)
    driver.window._pages["close"].kit.click()
    driver.settle(lambda: driver.window._pages["kit"].kit is not None)
    assert driver.window.page == "kit"
    driver.window.go_back()
    assert driver.window.page == "phone"  # a caller alone is there
    driver.window._actions["kit"].trigger()
    assert driver.window.page == "kit"
    driver.calm()
