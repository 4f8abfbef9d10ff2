"""`python -m faultdoc.app [CASE]` opens the window."""

import sys

from faultdoc.app import main

sys.exit(main(sys.argv[1:]))
