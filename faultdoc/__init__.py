"""FaultDoc: finds out why a packaged air-cooled water chiller has tripped."""

from importlib.metadata import PackageNotFoundError, version

try:
    __version__ = version("faultdoc")
except PackageNotFoundError:  # run straight from a checkout that was never installed
    __version__ = "0+unknown"

__all__ = ["__version__"]
