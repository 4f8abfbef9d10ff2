from xml.etree import ElementTree

from faultdoc.diagnosis.drawing import tree_svg, tree_text
from faultdoc.diagnosis.graph import causes_of, fault_graph
from faultdoc.library.load import load_library

SVG = "{http://www.w3.org/2000/svg}"


def shipped():
    library = load_library()
    for tree in library.trees.values():
        yield fault_graph([tree], library.causes)


def test_text_names_every_node_of_every_tree():
    for graph in shipped():
        text = tree_text(graph, dict.fromkeys(causes_of(graph), 0.25))
        for node, data in graph.nodes(data=True):
            assert data["title"] in text, node
        assert text.count("25.0%") >= len(causes_of(graph))


def test_svg_is_sound_and_no_two_boxes_overlap():
    for graph in shipped():
        probabilities = dict.fromkeys(causes_of(graph), 0.1)
        root = ElementTree.fromstring(tree_svg(graph, probabilities))
        assert root.tag == f"{SVG}svg"
        boxes = []
        for group in root.iter(f"{SVG}g"):
            rect = group.find(f"{SVG}rect")
            boxes.append(tuple(float(rect.get(key)) for key in ("x", "y", "width", "height")))
        assert len(boxes) == graph.number_of_nodes()
        assert len(list(root.iter(f"{SVG}path"))) == graph.number_of_edges()
        for i, (x, y, w, h) in enumerate(boxes):
            assert x + w <= float(root.get("width"))
            assert y + h <= float(root.get("height"))
            for left, top, wide, high in boxes[:i]:
                assert x + w <= left or x >= left + wide or y + h <= top or y >= top + high


def test_titles_cannot_inject_markup():
    graph = next(iter(shipped()))
    node = causes_of(graph)[0]
    graph.nodes[node]["title"] = "<script>alert(1)</script>"
    text = tree_svg(graph)
    assert "<script>" not in text
    assert "&lt;script&gt;" in text
