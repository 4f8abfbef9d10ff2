import re

from faultdoc.diagnosis.assess import assess, bench_for
from faultdoc.library.load import load_case, load_library, load_unit
from faultdoc.library.places import resources_folder
from faultdoc.terminal.treeshow import cut_sets_text, importance_text, sensitivity_text, shown_tree, tree_list

LIBRARY = load_library()
ID = "flow_proving_trip"


def look():
    case = load_case(resources_folder() / "cases" / "six_floors_up.yaml", LIBRARY)
    return assess(bench_for(LIBRARY, load_unit(case.unit), case.symptoms), case)


def test_the_list_names_every_tree():
    for id, tree in LIBRARY.trees.items():
        assert re.search(rf"^{id} +{re.escape(tree.title)}$", tree_list(LIBRARY), re.MULTILINE)


def test_cut_sets_are_counted_and_their_chances_are_products():
    graph, _ = shown_tree(LIBRARY, ID, None)
    first, *rest = cut_sets_text(graph, LIBRARY).splitlines()
    assert first.startswith(f"Minimal cut sets: {len(rest)}.")
    single = next(line for line in rest if line.endswith("  strainer_clogged"))
    assert float(single.split()[0]) == LIBRARY.causes["strainer_clogged"].rate / 1000


def test_importance_is_ranked_by_share():
    graph, _ = shown_tree(LIBRARY, ID, None)
    shares = [float(line.split("%")[0]) for line in importance_text(graph, LIBRARY).splitlines()[1:]]
    assert len(shares) > 40
    assert shares == sorted(shares, reverse=True)


def test_sensitivity_with_a_case_tells_of_its_answers():
    text = sensitivity_text(LIBRARY, ID, look())
    assert text.startswith("First now: loop_underfilled.")
    assert "in vents_tried, the odds of the answer given under loop_underfilled fall to 1/" in text
    assert "Proposed now: expansion_pin. Another step is proposed when" in text
    assert sensitivity_text(LIBRARY, ID, None).startswith("First now: strainer_clogged.")


def test_a_case_paints_its_belief_on_the_tree():
    _, chances = shown_tree(LIBRARY, ID, look())
    assert max(chances, key=chances.get) == "loop_underfilled"
    _, rates = shown_tree(LIBRARY, ID, None)
    assert rates["loop_underfilled"] == LIBRARY.causes["loop_underfilled"].rate / 1000
