"""A fault graph as a drawing: text for the terminal, SVG for paper, places and captions for the window.

Left to right from the symptom to the causes. Gates say their logic in words (any of, all of, at
least k of), conditions stand in dashed boxes. A cause's probability is a number and a shade of one
hue that only gets darker, so it can be told without seeing colours.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from html import escape
from textwrap import shorten

import networkx as nx

from faultdoc.diagnosis.graph import tops_of

__all__ = [
    "BOX",
    "HEIGHT",
    "MARGIN",
    "SHADES",
    "caption",
    "logic_in_words",
    "places",
    "shade",
    "tree_svg",
    "tree_text",
]

COLUMN, ROW, BOX, HEIGHT, MARGIN = 360, 34, 300, 28, 16
"""Pixels from column to column and row to row, of a box, and around the drawing."""
LETTERS = 46
INK = "#14202b"
SHADES: tuple[tuple[float, str, str], ...] = (
    (0.50, "#0b3650", "#ffffff"),
    (0.20, "#2f6f93", "#ffffff"),
    (0.05, "#8fbcd4", INK),
    (0.01, "#d3e5ef", INK),
    (0.00, "#ffffff", INK),
)
"""(least probability, ground, text), darkest first; text is at least 4.5 to 1 on its ground."""


def shade(chance: float) -> tuple[str, str]:
    """Return (ground, text) for a probability.

    >>> shade(0.7) == SHADES[0][1:], shade(0.004) == SHADES[-1][1:]
    (True, True)
    """
    return next((ground, text) for least, ground, text in SHADES if chance >= least)


def logic_in_words(logic: str | int) -> str:
    """Return a gate's logic in words.

    >>> logic_in_words("any"), logic_in_words(2)
    ('any of', 'at least 2 of')
    """
    return f"{logic} of" if isinstance(logic, str) else f"at least {logic} of"


def tree_text(graph: nx.DiGraph[str], probabilities: Mapping[str, float] | None = None) -> str:
    """Return the graph as an indented list; what was shown before is named again, not opened again.

    Args:
        graph: from `fault_graph`.
        probabilities: of causes, shown behind them.
    """
    lines: list[str] = []
    seen: set[str] = set()

    def walk(node: str, indent: str) -> None:
        data = graph.nodes[node]
        chance = "" if probabilities is None or node not in probabilities else f"  {probabilities[node]:.1%}"
        if data["kind"] == "gate":
            again = node in seen
            lines.append(
                f"{indent}{data['title']}: {logic_in_words(data['logic'])}{' (as above)' if again else ''}"
            )
            seen.add(node)
            if not again:
                for child in graph.successors(node):
                    walk(child, indent + "  ")
        elif data["kind"] == "condition":
            lines.append(f"{indent}given that: {data['title']} ({data['probability']:.0%})")
        else:
            lines.append(f"{indent}- {data['title']} [{node}]{chance}")

    for top in tops_of(graph):
        walk(top, "")
    return "\n".join(lines)


def tree_svg(graph: nx.DiGraph[str], probabilities: Mapping[str, float] | None = None) -> str:
    """Return the graph as an SVG document.

    Args:
        graph: from `fault_graph`.
        probabilities: of causes; drawn as shades with their numbers.
    """
    spots = places(graph)
    width = max(x for x, _ in spots.values()) + BOX + MARGIN + 60
    height = max(y for _, y in spots.values()) + HEIGHT + MARGIN
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
        f'viewBox="0 0 {width} {height}" font-family="sans-serif" font-size="11">',
        f'<rect width="{width}" height="{height}" fill="#ffffff"/>',
    ]
    parts += [_line(spots[parent], spots[child]) for parent, child in graph.edges]
    for node, place in spots.items():
        parts += _box(graph, node, place, None if probabilities is None else probabilities.get(node))
    parts.append("</svg>")
    return "\n".join(parts)


def places(graph: nx.DiGraph[str]) -> dict[str, tuple[int, int]]:
    """Return the upper left corner of every node in pixels: column by depth, row by a walk from the top."""
    depth: dict[str, int] = {}
    for node in nx.topological_sort(graph):
        depth[node] = max((depth[parent] + 1 for parent in graph.predecessors(node)), default=0)
    last = max(depth.values())
    leaves = [node for node in _walk(graph) if graph.nodes[node]["kind"] != "gate"]
    rows = {leaf: float(row) for row, leaf in enumerate(leaves)}
    for node in reversed(list(nx.topological_sort(graph))):
        if node not in rows:
            below = [rows[child] for child in graph.successors(node)]
            rows[node] = sum(below) / len(below) if below else 0.0
    spots: dict[str, tuple[int, int]] = {}
    taken: dict[int, list[float]] = {}
    for node in sorted(rows, key=lambda node: rows[node]):
        column = last if graph.nodes[node]["kind"] != "gate" else depth[node]
        row = max([rows[node], *(other + 1.0 for other in taken.get(column, [])[-1:])])
        taken.setdefault(column, []).append(row)
        spots[node] = MARGIN + column * COLUMN, MARGIN + round(row * ROW)
    return spots


def _walk(graph: nx.DiGraph[str]) -> Iterator[str]:
    seen: set[str] = set()
    for top in tops_of(graph):
        for node in nx.dfs_preorder_nodes(graph, top):
            if node not in seen:
                seen.add(node)
                yield node


def _line(parent: tuple[int, int], child: tuple[int, int]) -> str:
    x1, y1 = parent[0] + BOX, parent[1] + HEIGHT // 2
    x2, y2 = child[0], child[1] + HEIGHT // 2
    bend = x1 + 18
    return f'<path d="M{x1} {y1} H{bend} L{x2 - 8} {y2} H{x2}" fill="none" stroke="#5a6470" stroke-width="1"/>'


def caption(graph: nx.DiGraph[str], node: str) -> str:
    """Return what stands in a node's box: its title, cut to fit, with its logic or probability."""
    data = graph.nodes[node]
    if data["kind"] == "gate":
        return f"{shorten(data['title'], LETTERS - 12, placeholder='...')}: {logic_in_words(data['logic'])}"
    if data["kind"] == "condition":
        return f"given {shorten(data['title'], LETTERS - 12, placeholder='...')} ({data['probability']:.0%})"
    return shorten(data["title"], LETTERS, placeholder="...")


def _box(graph: nx.DiGraph[str], node: str, place: tuple[int, int], chance: float | None) -> list[str]:
    x, y = place
    data = graph.nodes[node]
    dashes = ' stroke-dasharray="4 3"' if data["kind"] == "condition" else ""
    fill, ink = ("#eef2f5" if data["kind"] == "gate" else "#ffffff", INK) if chance is None else shade(chance)
    parts = [
        f"<g><title>{escape(data['title'])}</title>"
        f'<rect x="{x}" y="{y}" width="{BOX}" height="{HEIGHT}" rx="3" fill="{fill}" stroke="{INK}"{dashes}/>'
    ]
    if chance is not None:
        parts.append(f'<text x="{x + BOX + 6}" y="{y + 18}" fill="{INK}">{chance:.1%}</text>')
    parts.append(f'<text x="{x + 8}" y="{y + 18}" fill="{ink}">{escape(caption(graph, node))}</text></g>')
    return parts
