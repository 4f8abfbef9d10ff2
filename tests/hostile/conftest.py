import sys
from pathlib import Path

# The tests' own helpers stand beside them; tests are not a package.
sys.path.insert(0, str(Path(__file__).parent))
