"""Pictures as plain data: shapes in a plane, drawn alike by the window and on paper.

A picture is made below the window by pure functions (`schematic`, `cycle`, `curves`, `phasors`, `clocks`,
`howto`), painted by `faultdoc.app.widgets.picture`, and written as SVG by `svg`. Colours are roles, never
values: the window's themes and the paper each give theirs. No meaning rests on a colour alone.
"""
